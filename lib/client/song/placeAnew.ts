import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import { placeSequence } from "@/lib/places/placeSequence";
import type { Key } from "@/lib/theory/key";
import { laidArticulation } from "./laidArticulation";
import type { PartOnGuitar, PlacesInstead } from "./partOnGuitar";
import { eventBefore } from "./partTyping";

/** What stands beside the part, and who is told how far it is, 0 to 1. */
interface Beside {
  /** Home; not given where it is not known, or kept from who looks. */
  key: Key | undefined;
  changes: readonly ShownChange[];
  onProgress?: ((fraction: number) => void) | undefined;
}

/**
 * Finds places on another guitar for what could not be carried over to it by effect: of all ways to play the part with the
 * rest as it lies there the cheapest. Events that lie nowhere on it are left out.
 * @param from the guitar that the part was written for
 * @param read the part on the other guitar, with its flags
 */
export function placeAnew(
  read: PartOnGuitar,
  from: Copedent,
  to: Copedent,
  { key, changes, onProgress }: Beside,
): PlacesInstead {
  const wanted = read.part.flatMap((event): { event: ShownPart; heard: HeardEvent; isFlagged: boolean }[] => {
    const flag = read.flags.get(event.id);
    const pitches = flag ? pitchesOf(from, flag.written) : pitchesOf(to, event);
    if (pitches === null) return [];
    const { startSec, endSec, strings, fret, frets } = event;
    const chordLabel = changes.find((each) => each.startSec <= startSec && each.endSec > startSec)?.label;
    const place = { fret, strings, changes: event.changes, ...(frets ? { frets } : {}) };
    const heard = { startSec, endSec, notesMidi: pitches, chordLabel, ...(flag ? {} : { place }) };
    return [{ event, heard, isFlagged: flag !== undefined }];
  });
  const { events } = placeSequence(
    to,
    wanted.map(({ heard }) => heard),
    { key, onProgress },
  );
  const placed = new Map<string, ShownPart>();
  wanted.forEach(({ event, heard, isFlagged }, at) => {
    const { candidates, chosenIndex } = events[at]!;
    const chosen = candidates[chosenIndex ?? -1];
    if (!isFlagged || !chosen || chosen.strings.length < heard.notesMidi.length) return;
    const order = chosen.strings
      .map((_, index) => index)
      .sort((a, b) => chosen.strings[a]! - chosen.strings[b]!);
    const frets = chosen.frets;
    placed.set(event.id, {
      ...event,
      strings: order.map((index) => chosen.strings[index]!),
      fret: chosen.fret,
      frets: frets ? order.map((index) => frets[index]!) : null,
      changes: [...chosen.changes],
    });
  });
  return new Map(
    [...placed].map(([id, event]) => [id, { ...event, articulation: begins(event, read, placed) }]),
  );
}

function begins(
  event: ShownPart,
  { part }: PartOnGuitar,
  placed: ReadonlyMap<string, ShownPart>,
): ShownPart["articulation"] {
  const now = part.map((each) => placed.get(each.id) ?? each);
  const before = eventBefore(now, event.startSec, event.strings);
  return laidArticulation(event, before);
}

/** Null where not every string gives a pitch. */
function pitchesOf(copedent: Copedent, event: ShownPart): number[] | null {
  try {
    const pitches = stoppedPitches(copedent, event).filter((midi) => midi !== null);
    return pitches.length === event.strings.length ? pitches : null;
  } catch {
    // A pedal or lever that the guitar it was written for lacks: what it sounded like, nobody knows.
    return null;
  }
}
