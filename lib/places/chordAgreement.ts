import { parseHarte } from "@/lib/theory/harte";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";
import type { PlaceFacts } from "./facts";
import { type HeldSet, holdsWithin, type Neck } from "./neck";

/** How far a position's own chord is the chord in force. */
export type Agreement = "matched" | "near" | "foreign";

/** A position seen against a chord: the best that pressing changes the notes do not feel can make of it. */
export interface ChordAgreement {
  agreement: Agreement;
  /** The set of changes under which the grip strings carry the chord. */
  held: HeldSet;
}

/** Bits of the pitch classes of a Harte label, bit 0 = C; 0 for no chord. Throws `HarteError`. */
export function chordMaskOf(label: string): number {
  return (parseHarte(label)?.pitchClasses ?? []).reduce((mask, pitchClass) => mask | (1 << pitchClass), 0);
}

/** Whether every note belongs to the chord; passing notes say nothing about the position that they pass through. */
export function areChordTones(chordMask: number, notesMidi: readonly Midi[]): boolean {
  return notesMidi.every((note) => (chordMask >> midiToPitchClass(note)) & 1);
}

/**
 * How well a place lies for a chord: the pitch classes of all grip strings at its fret against the chord's. A
 * player on one string of a position keeps the rest of it under foot, so sets that engage more without moving
 * the strings played count as well. Matched: the grip strings give three or more notes, all of the chord. Near:
 * at least three in five of the notes that either has are common to both.
 * @param chordMask as from {@link chordMaskOf}, not 0
 */
export function agreementWithChord(neck: Neck, facts: PlaceFacts, chordMask: number): ChordAgreement {
  const { fret, strings } = facts.place;
  let near: HeldSet | null = null;
  for (const held of neck.sets) {
    const position = rotate(held.chordMask, fret);
    const common = countBits(position & chordMask);
    const matched = (position & ~chordMask) === 0 && common >= 3;
    const nearly = near === null && common / countBits(position | chordMask) >= 0.6;
    if (!matched && !nearly) continue;
    if (!holdsWithin(facts.held, held)) continue;
    if (strings.some((string) => held.openMidi.get(string) !== facts.held.openMidi.get(string))) continue;
    if (matched) return { agreement: "matched", held };
    near = held;
  }
  return near === null ? { agreement: "foreign", held: facts.held } : { agreement: "near", held: near };
}

function rotate(mask: number, semitones: number): number {
  const by = semitones % 12;
  return ((mask << by) | (mask >> (12 - by))) & 0xfff;
}

function countBits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}
