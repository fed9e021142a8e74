import { ChartFault, type ChartPath, show } from "./ChartFault";

/** Fields of an object, their values of any make. Each reader below throws {@link ChartFault}. */
export type Fields = Readonly<Record<string, unknown>>;

/** An object whose fields are all known. */
export function readObject(value: unknown, path: ChartPath, known: readonly string[]): Fields {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new ChartFault(path, `must be an object with ${known.join(", ")}, not ${show(value)}.`);
  const unknown = Object.keys(value).find((key) => !known.includes(key));
  if (unknown !== undefined)
    throw new ChartFault(
      path,
      `${show(unknown)} is not a field here: leave it out; the fields are ${known.join(", ")}.`,
    );
  return value as Fields;
}

/** A list of at most so many. */
export function readList(value: unknown, path: ChartPath, most: number, what: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new ChartFault(path, `must be a list of ${what}, not ${show(value)}.`);
  if (value.length > most)
    throw new ChartFault(path, `lists ${value.length} ${what}: write at most ${most}.`);
  return value;
}

/** A whole number within bounds. */
export function readWhole(value: unknown, path: ChartPath, least: number, most: number): number {
  if (!Number.isInteger(value) || (value as number) < least || (value as number) > most)
    throw new ChartFault(path, `must be a whole number from ${least} to ${most}, not ${show(value)}.`);
  // Minus nought, which JSON can write, is no other number.
  return (value as number) + 0;
}

/** One line of text, without spaces around it; may be empty. */
export function readText(value: unknown, path: ChartPath, most: number): string {
  if (typeof value !== "string") throw new ChartFault(path, `must be text, not ${show(value)}.`);
  const text = value.trim();
  if (text.length > most)
    throw new ChartFault(path, `is ${text.length} characters long: write at most ${most}.`);
  if ([...text].some((sign) => sign < " " || sign === "\u007f"))
    throw new ChartFault(path, "must be one line of plain text: leave out line breaks and tabs.");
  return text;
}

/** Different string numbers of the instrument, ascending. */
export function readStringNumbers(value: unknown, path: ChartPath, stringCount: number): number[] {
  const numbers = readList(value, path, stringCount, "string numbers").map((each, at) =>
    readStringNumber(each, [...path, at], stringCount),
  );
  const twice = numbers.find((number, at) => numbers.indexOf(number) !== at);
  if (twice !== undefined) throw new ChartFault(path, `lists string ${twice} twice: name it once.`);
  return numbers.sort((a, b) => a - b);
}

/** A string number of the instrument. */
export function readStringNumber(value: unknown, path: ChartPath, stringCount: number): number {
  if (!Number.isInteger(value) || (value as number) < 1 || (value as number) > stringCount)
    throw new ChartFault(
      path,
      `there is no string ${show(value)}: the strings are 1 to ${stringCount}, 1 furthest from the player.`,
    );
  return value as number;
}
