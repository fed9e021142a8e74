/** A field of the chart as the page names it, to say beside it what is wrong; `chart` for the chart as a whole. */
export type ChartField =
  | "chart"
  | "name"
  | "source"
  | "frets"
  | "grips"
  | `string ${string}`
  | `change ${string}`;

/** Fields of single strings and changes, by their keys. */
export const fieldAt = {
  pitch: (stringKey: string): ChartField => `string ${stringKey} pitch`,
  begins: (stringKey: string): ChartField => `string ${stringKey} begins`,
  id: (changeKey: string): ChartField => `change ${changeKey} id`,
  label: (changeKey: string): ChartField => `change ${changeKey} label`,
  slot: (changeKey: string): ChartField => `change ${changeKey} slot`,
  move: (changeKey: string, stage: number, stringKey: string): ChartField =>
    `change ${changeKey} ${stage} ${stringKey}`,
} as const;
