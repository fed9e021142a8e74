/** A step into a chart: the name of a field, or a place in a list. */
export type ChartPath = readonly (string | number)[];

/** A chart that is no instrument. The message says where, what is wrong and what to do, in one line. */
export class ChartFault extends Error {
  override readonly name = "ChartFault";
  constructor(
    /** Where the fault stands, as in `["changes", 2, "moves", "11"]`; empty for the chart as a whole. */
    readonly path: ChartPath,
    /** What is wrong and what to do, without the place. */
    readonly why: string,
  ) {
    super(`${pathToText(path)}: ${why}`);
  }
}

/** As it would be written in code: `changes[2].moves.11`. */
function pathToText(path: ChartPath): string {
  const text = path.reduce<string>(
    (so, step) => (typeof step === "number" ? `${so}[${step}]` : `${so}.${step}`),
    "",
  );
  return text === "" ? "the chart" : text.replace(/^\./, "");
}

const SHOWN_CHARACTERS = 30;

/** A value of unknown make in a few characters, for a message. */
export function show(value: unknown): string {
  if (typeof value === "string") return `"${clip(value)}"`;
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object" && value !== null) return "an object";
  return value === undefined ? "nothing" : clip(String(value));
}

function clip(text: string): string {
  const plain = [...text.slice(0, 2 * SHOWN_CHARACTERS)].map((sign) => (sign < " " ? " " : sign)).join("");
  return plain.length > SHOWN_CHARACTERS ? `${plain.slice(0, SHOWN_CHARACTERS)}...` : plain;
}
