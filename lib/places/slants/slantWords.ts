import { joinWords } from "../joinWords";
import type { Spot } from "../Spot";

/** What the bar does, as in `slant the bar forward, 5 on string 2 and 4 on string 3`; null where it lies straight. */
export function slantWords({ slant, frets, hold }: Spot): string | null {
  if (!slant || !frets) return null;
  const fromTop = hold.strings
    .map((string, at) => ({ string, fret: frets[at]! }))
    .sort((a, b) => a.string - b.string);
  const words = fromTop.map(({ string, fret }) => `${fret} on string ${string}`);
  const way =
    slant.family === "split"
      ? `split the bar between strings ${fromTop[0]!.string} and ${fromTop[1]!.string}`
      : `slant the bar ${slant.family === "forward" ? "forward" : "in reverse"}`;
  return `${way}, ${joinWords(words)}`;
}
