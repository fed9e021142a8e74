import type { EventPlace } from "@/lib/document/commands/head";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { fretsOf, settleFrets } from "@/lib/instrument/frets";
import type { HeardEvent, SoundingOn } from "@/lib/places/HeardEvent";
import type { CostedPlace } from "@/lib/places/PlacedSequence";
import { placeSequence } from "@/lib/places/placeSequence";
import type { Key } from "@/lib/theory/key";
import type { Midi, Semitones } from "@/lib/units/quantities";
import { laidArticulation } from "./laidArticulation";
import { eventBefore } from "./partTyping";
import { SAME_MOMENT_SEC } from "./sameMoment";
import { waysThrough } from "./waysThrough";

/** Events that are to lie elsewhere and sound the same, or the same so far up or down. */
export interface GripsQuestion {
  copedent: Copedent;
  /** In order of time. */
  events: readonly ShownPart[];
  /** All of the part; what is not among `events` stays where it is. */
  part: readonly ShownPart[];
  semitones: Semitones;
  key: Key;
  changes: readonly ShownChange[];
}

/** One way to lay the events: where each of them lies, by id. */
export type GripWay = ReadonlyMap<string, EventPlace & Pick<ShownPart, "articulation">>;

/** One string of an event with what it sounds. */
interface Note {
  event: ShownPart;
  string: number;
  midi: Midi;
}

/**
 * Other places for events of a part, cheapest first, each different in kind from those before it; how they lie now may be
 * among them. What begins together is held by one hand, and a string that sounds on without a pick keeps its string. None
 * where an event gives no dependable pitch or lies nowhere.
 * @throws HarteError on a chord label that cannot be read
 */
export function otherGrips({ copedent, events, part, semitones, key, changes }: GripsQuestion): GripWay[] {
  const strokes = strokesOf(events).map((together) =>
    together.flatMap((event): Note[] => {
      const pitches = pitchesOf(copedent, event);
      return event.strings.flatMap((string, at) => {
        const midi = pitches[at] ?? null;
        return midi === null ? [] : [{ event, string, midi: midi + semitones }];
      });
    }),
  );
  const soundsWhole = strokes.flat().length === events.reduce((sum, { strings }) => sum + strings.length, 0);
  if (strokes.length === 0 || !soundsWhole) return [];
  const heard = strokes.map((notes, at) => heardStroke(notes, strokes[at - 1] ?? [], changes));
  const ids = new Set(events.map(({ id }) => id));
  const others = part.filter(({ id }) => !ids.has(id));
  const [first, last] = [events[0]!, events.at(-1)!];
  const before = fixed(
    copedent,
    others.findLast(({ startSec }) => startSec < first.startSec),
  );
  const after = fixed(
    copedent,
    others.find(({ startSec }) => startSec > last.startSec),
  );
  const placed = placeSequence(copedent, [...before, ...heard, ...after], { key });
  return waysThrough(placed).flatMap(({ places }) => {
    const own = places.slice(before.length, before.length + strokes.length);
    const way = new Map<string, ShownPart>();
    for (const [at, notes] of strokes.entries())
      for (const event of new Set(notes.map((note) => note.event))) {
        const laid = laidAt(event, notes, own[at] ?? null);
        if (laid === null) return [];
        way.set(event.id, laid);
      }
    return [new Map([...way].map(([id, event]) => [id, begun(event, part, way)]))];
  });
}

/** Events by when they begin, those that begin together in one. */
function strokesOf(events: readonly ShownPart[]): ShownPart[][] {
  const strokes: ShownPart[][] = [];
  for (const event of events) {
    const last = strokes.at(-1);
    if (last && event.startSec - last[0]!.startSec < SAME_MOMENT_SEC) last.push(event);
    else strokes.push([event]);
  }
  return strokes;
}

function heardStroke(
  notes: readonly Note[],
  before: readonly Note[],
  changes: readonly ShownChange[],
): HeardEvent {
  const [first] = notes;
  const startSec = first?.event.startSec ?? 0;
  const chordLabel = changes.find((each) => each.startSec <= startSec && each.endSec > startSec)?.label;
  const soundsOn = notes.map(({ event, string, midi }): SoundingOn | null => {
    const from = event.articulation === "pick" ? -1 : before.findIndex((note) => note.string === string);
    if (from < 0) return null;
    return { from, forSec: event.endSec - event.startSec, glides: before[from]!.midi !== midi };
  });
  return {
    startSec,
    endSec: Math.max(...notes.map(({ event }) => event.endSec)),
    notesMidi: notes.map(({ midi }) => midi),
    soundsOn,
    ...(chordLabel === undefined ? {} : { chordLabel }),
  };
}

/** An event that stays where it is, as the search takes it; none where it cannot be played here. */
function fixed(copedent: Copedent, event: ShownPart | undefined): HeardEvent[] {
  if (!event) return [];
  const pitches = pitchesOf(copedent, event).filter((midi) => midi !== null);
  if (pitches.length < event.strings.length) return [];
  const { startSec, endSec, strings, fret, frets = null, changes } = event;
  return [{ startSec, endSec, notesMidi: pitches, place: { strings, fret, frets, changes } }];
}

/** Null for each string where the event names a pedal or lever that this guitar lacks. */
function pitchesOf(copedent: Copedent, event: ShownPart): (Midi | null)[] {
  try {
    return stoppedPitches(copedent, event);
  } catch {
    return event.strings.map(() => null);
  }
}

/** An event at the place of its stroke; null where not all of its strings are in it. */
function laidAt(event: ShownPart, notes: readonly Note[], place: CostedPlace | null): ShownPart | null {
  if (!place) return null;
  const frets = fretsOf(place);
  const on = place.strings
    .map((string, at) => ({ string, fret: frets[at]!, note: notes[place.sounding[at]!] }))
    .filter(({ note }) => note?.event === event)
    .sort((a, b) => a.string - b.string);
  if (on.length < event.strings.length) return null;
  const held = settleFrets(on.map(({ fret }) => fret));
  return { ...event, strings: on.map(({ string }) => string), ...held, changes: [...place.changes] };
}

/** How an event begins where it now lies: a string that did not sound before is picked, others go on as they must. */
function begun(event: ShownPart, part: readonly ShownPart[], way: ReadonlyMap<string, ShownPart>) {
  const { strings, fret, frets = null, changes } = event;
  const now = part.map((each) => way.get(each.id) ?? each);
  const before = eventBefore(now, event.startSec, strings);
  const articulation = laidArticulation(event, before);
  return { strings, fret, frets, changes, articulation } as const;
}
