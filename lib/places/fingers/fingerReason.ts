import type { CostTerm, TermName } from "../Place";
import type { HandState } from "./fingerCost";

const REMARKS: readonly [TermName, string][] = [
  ["glide heard", "this is how the glide was heard"],
  ["barre", "one finger lies across the strings"],
  ["stretch", "a stretch of the hand"],
  ["high frets", "high on the neck"],
  ["strings skipped", "strings between must not sound"],
  ["same shape", "the fingers keep their shape"],
  ["notes stopped", "a note that rang is stopped"],
  ["picked anew", "a note that was heard to glide is picked anew"],
];

/**
 * Says in plain words what the hand does and what speaks for or against it, as in `Index at 3, no shift.`
 * @param chordLetters the chord in force where it lies under the hand; else null
 */
export function fingerReason(
  { fingering, position }: HandState,
  before: HandState | null,
  terms: readonly CostTerm[],
  chordLetters: string | null,
): string {
  const { stops, place } = fingering;
  const isOpen = stops.length === 0;
  const acts = isOpen
    ? [place.strings.length === 1 ? "open string" : "open strings", ...handWords(position, before, true)]
    : handWords(position, before, false);
  const openCount = place.strings.length - stops.length;
  if (!isOpen && openCount > 0) acts.push(`${openCount === 1 ? "one string" : `${openCount} strings`} open`);
  const sentences = [acts.join(", ")];
  if (chordLetters !== null) sentences.push(`the ${chordLetters} chord lies under the hand`);
  for (const [name, words] of REMARKS)
    if (terms.some((term) => term.name === name && term.cost !== 0)) sentences.push(words);
  return sentences.map((each) => `${each.charAt(0).toUpperCase()}${each.slice(1)}.`).join(" ");
}

function handWords(position: number, before: HandState | null, isOpen: boolean): string[] {
  if (before === null) return isOpen ? [] : [`index at ${position}`];
  const frets = position - before.position;
  if (frets === 0) return isOpen ? ["no shift"] : [`index at ${position}`, "no shift"];
  const count = Math.abs(frets);
  const way = `${frets > 0 ? "up" : "down"} ${count} ${count === 1 ? "fret" : "frets"}`;
  return isOpen ? [`the hand goes ${way} meanwhile`] : [`index to ${position}`, way];
}
