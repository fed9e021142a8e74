import { parseHarte } from "@/lib/theory/harte";
import { type Key, keyToWords } from "@/lib/theory/key";
import { scaleOf } from "@/lib/theory/scale";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";
import { type HeldSet, holdsWithin, type Neck } from "./neck";
import { fretAt, type Spot } from "./Spot";

/** How far a position's own chord is the chord in force. */
export type Agreement = "matched" | "near" | "foreign";

/** A position seen against a chord: the best that pressing changes the notes do not feel can make of it. */
export interface ChordAgreement {
  agreement: Agreement;
  /** The set of changes under which the grip strings carry the chord. */
  held: HeldSet;
  /** Whether no note of the chord is wanting there. */
  isWhole: boolean;
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
 * What a position gives against a chord, both as bits of pitch classes. Matched: three or more notes, all of the chord.
 * Near: at least three in five of the notes that either has are common to both.
 */
export function agreementOf(positionMask: number, chordMask: number): Agreement {
  const common = countBits(positionMask & chordMask);
  if ((positionMask & ~chordMask) === 0 && common >= 3) return "matched";
  return common / countBits(positionMask | chordMask) >= 0.6 ? "near" : "foreign";
}

/**
 * How well a place lies for a chord: the pitch classes of all grip strings at its fret against the chord's. A
 * player on one string of a position keeps the rest of it under foot, so sets that engage more without moving
 * the strings played count as well. Under a slanted bar no string is in tune but those that it was slanted for, so these
 * alone are the position.
 * @param chordMask as from {@link chordMaskOf}, not 0
 */
export function agreementWithChord(neck: Neck, spot: Spot, chordMask: number): ChordAgreement {
  if (spot.slant) return agreementUnder(neck, spot, chordMask);
  const ofNeck = byPosition.get(neck) ?? new Map<number, Map<number, ChordAgreement>>();
  byPosition.set(neck, ofNeck);
  const ofChord = ofNeck.get(chordMask) ?? new Map<number, ChordAgreement>();
  ofNeck.set(chordMask, ofChord);
  const position = spot.hold.id * 12 + (spot.fret % 12);
  const found = ofChord.get(position) ?? agreementUnder(neck, spot, chordMask);
  ofChord.set(position, found);
  return found;
}

/** By chord, then by hold and fret within the octave: what was worked out once for a straight bar is kept. */
const byPosition = new WeakMap<Neck, Map<number, Map<number, ChordAgreement>>>();

function agreementUnder(neck: Neck, spot: Spot, chordMask: number): ChordAgreement {
  const { fret, hold } = spot;
  if (spot.slant) {
    const sounding = soundingMask(neck, spot);
    const isWhole = (chordMask & ~sounding) === 0;
    return { agreement: agreementOf(sounding, chordMask), held: hold.set, isWhole };
  }
  // The chord taken down to fret 0 instead of every position up to this one.
  const openMask = rotate(chordMask, 12 - (fret % 12));
  const { matched, near } = setsWithChord(neck, openMask);
  const indexes = hold.strings.map((string) => neck.indexOf(string));
  const isUnder = (held: HeldSet) =>
    holdsWithin(hold.set, held) && indexes.every((index, at) => held.offsets[index] === hold.offsets[at]);
  const full = matched.find(isUnder);
  const found = full ?? near.find(isUnder);
  const agreement = full ? "matched" : found ? "near" : "foreign";
  const held = found ?? hold.set;
  return { agreement, held, isWhole: (openMask & ~held.chordMask) === 0 };
}

/** Sets of a neck that carry a chord at fret 0, and those that nearly do, fewest changes first. */
interface SetsWithChord {
  matched: readonly HeldSet[];
  near: readonly HeldSet[];
}

const byChord = new WeakMap<Neck, Map<number, SetsWithChord>>();

function setsWithChord(neck: Neck, chordMask: number): SetsWithChord {
  const ofNeck = byChord.get(neck) ?? new Map<number, SetsWithChord>();
  byChord.set(neck, ofNeck);
  const known = ofNeck.get(chordMask);
  if (known !== undefined) return known;
  const matched: HeldSet[] = [];
  const near: HeldSet[] = [];
  for (const held of neck.sets) {
    const agreement = agreementOf(held.chordMask, chordMask);
    if (agreement === "matched") matched.push(held);
    else if (agreement === "near") near.push(held);
  }
  const found = { matched, near };
  ofNeck.set(chordMask, found);
  return found;
}

/** Pitch classes of the strings that a spot sounds, bit 0 = C. */
function soundingMask(neck: Neck, spot: Spot): number {
  return spot.hold.strings.reduce((mask, string, at) => {
    const open = neck.copedent.strings[neck.indexOf(string)]!.openMidi;
    return mask | (1 << midiToPitchClass(open + fretAt(spot, at) + spot.hold.offsets[at]!));
  }, 0);
}

/** Whether the grip strings, as they are held, give a chord of three or more notes that all lie in home's scale. */
export function isHomePosition({ fret, hold }: Spot, key: Key): boolean {
  const position = rotate(hold.set.chordMask, fret % 12);
  return countBits(position) >= 3 && (position & ~scaleMaskOf(key)) === 0;
}

const scaleMasks = new Map<string, number>();

function scaleMaskOf(key: Key): number {
  const name = keyToWords(key);
  const known = scaleMasks.get(name);
  if (known !== undefined) return known;
  const mask = scaleOf(key).reduce((sum, pitchClass) => sum | (1 << pitchClass), 0);
  scaleMasks.set(name, mask);
  return mask;
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
