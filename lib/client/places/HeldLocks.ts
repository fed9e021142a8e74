import type { Copedent } from "@/lib/instrument/Copedent";
import type { StageId } from "@/lib/instrument/stages";
import type { PartLocks, PlaceLocks } from "@/lib/places/PlaceLocks";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import { printed } from "../format/format";

/** What a person holds to on the bench while placing notes. */
export interface HeldLocks {
  /** Notes with the string that each is to be on; they hold for the notes on the bench alone. */
  strings: readonly { midi: Midi; string: number }[];
  frets: { from: number; to: number } | null;
  pedals: "up" | "down" | null;
  /** Pedals and levers just as they are; holds for the notes on the bench alone. */
  changes: readonly StageId[] | null;
  /** The strings that may be played; null: all. */
  grip: readonly number[] | null;
  /** No lock but leave: whether the bar may be slanted. */
  slants: boolean;
}

export const NOTHING_HELD: HeldLocks = {
  strings: [],
  frets: null,
  pedals: null,
  changes: null,
  grip: null,
  slants: false,
};

/** One lock as it is shown, with what is held without it. */
export interface LockTag {
  words: string;
  without: HeldLocks;
}

/** For a single event. */
export function placeLocksOf(held: HeldLocks): PlaceLocks {
  return {
    ...partLocksOf(held),
    ...(held.changes && { changes: held.changes }),
    ...(held.strings.length > 0 && { strings: held.strings }),
  };
}

/** For a passage: what is said of single notes or of feet and knees at one moment does not hold there. */
export function partLocksOf({ frets, pedals, grip }: HeldLocks): PartLocks {
  return { ...(frets && { frets }), ...(pedals && { pedals }), ...(grip && { grip }) };
}

/** What of it holds for other notes too. */
export function withoutOwn(held: HeldLocks): HeldLocks {
  return { ...held, strings: [], changes: null };
}

/** Every lock in words, as it stands on the bench. */
export function lockTags(held: HeldLocks, copedent: Copedent): LockTag[] {
  const tags: LockTag[] = held.strings.map(({ midi, string }) => ({
    words: `${printed(midiToName(midi))} on string ${string}`,
    without: { ...held, strings: held.strings.filter((each) => each.midi !== midi) },
  }));
  const { frets, pedals, changes, grip, slants } = held;
  if (frets) {
    const words = frets.from === frets.to ? `fret ${frets.from}` : `frets ${frets.from} to ${frets.to}`;
    tags.push({ words, without: { ...held, frets: null } });
  }
  if (pedals) tags.push({ words: `pedals ${pedals}`, without: { ...held, pedals: null } });
  if (changes) {
    const words = changes.length === 0 ? "nothing pressed" : `just ${changes.join(" and ")}`;
    tags.push({ words, without: { ...held, changes: null } });
  }
  if (grip) {
    const left = copedent.strings.filter(({ number }) => !grip.includes(number)).map(({ number }) => number);
    const words =
      left.length < grip.length ? `not string ${left.join(", ")}` : `string ${grip.join(", ")} alone`;
    tags.push({ words: words.replace(/string (?=\d+,)/, "strings "), without: { ...held, grip: null } });
  }
  if (slants) tags.push({ words: "bar may slant", without: { ...held, slants: false } });
  return tags;
}
