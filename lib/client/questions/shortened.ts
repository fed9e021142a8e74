/** So many signs at most. */
const FIRST_SIGNS = 60;

/** The first words of a text: its first line, cut where it is long. */
export function shortened(words: string): string {
  const [line = ""] = words.split("\n", 1);
  return line.length > FIRST_SIGNS || line.length < words.length
    ? `${line.slice(0, FIRST_SIGNS).trimEnd()}…`
    : line;
}
