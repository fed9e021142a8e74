import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import { withinOctave } from "@/lib/units/pitch";
import type { Semitones } from "@/lib/units/quantities";
import type { Comparison } from "./Comparison";

/** The tonic of a relative minor lies a small third below that of its major. */
const RELATIVE: Semitones = 3;
const FIFTH: Semitones = 7;

/** How a guessed home stands to the answer. */
export function compareKeys(guess: Key, answer: Key): Comparison {
  const above = tonicsApart(answer, guess);
  if (above === 0) {
    if (guess.mode !== answer.mode) return "parallel";
    return guess.tonic === answer.tonic ? "same" : "enharmonic";
  }
  if (guess.mode !== answer.mode)
    return above === withinOctave(answer.mode === "major" ? -RELATIVE : RELATIVE) ? "relative" : "other";
  return above === FIFTH || above === withinOctave(-FIFTH) ? "fifth" : "other";
}

/** How far the tonic of one key lies above that of another, 0 to 11 semitones. */
export function tonicsApart(from: Key, to: Key): Semitones {
  return withinOctave(parsePitchName(to.tonic).pitchClass - parsePitchName(from.tonic).pitchClass);
}
