import type { EventPlace } from "@/lib/document/commands/head";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { fretOn, fretsOf, settleFrets } from "@/lib/instrument/frets";
import type { HeardEvent, SoundingOn } from "@/lib/places/HeardEvent";
import type { CostedPlace } from "@/lib/places/PlacedSequence";
import { placeSequence } from "@/lib/places/placeSequence";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds, Semitones } from "@/lib/units/quantities";
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
  /** Home; undefined where it is not seen: then no position is told as one of it. */
  key: Key | undefined;
  changes: readonly ShownChange[];
}

/** One way to lay the events: where each of them lies, by id. */
export type GripWay = ReadonlyMap<string, EventPlace & Pick<ShownPart, "articulation">>;

/** What stops this little after another stroke was stopped for it; nor is more of it followed at once. */
const RINGS_FROM_SEC: Seconds = 0.12;
const MOST_RINGING = 4;
/** From the index finger to the little one, a finger to each fret. */
const HAND_FRETS = 3;

/** One string of an event with what it sounds. */
interface Note {
  event: ShownPart;
  string: number;
  midi: Midi;
  /** Null where it is picked or rings on; else how it goes on from the stroke before. */
  goesOn: SoundingOn | null;
}

/** What sounds from one moment on: what begins there, and behind it what rings on. */
interface Stroke {
  startSec: Seconds;
  begun: readonly ShownPart[];
  notes: readonly Note[];
}

/**
 * Other places for events of a part, cheapest first, each different in kind from those before it; how they lie now may be
 * among them. What begins together is held by one hand, and a string that sounds on without a pick keeps its string. What
 * rings beside them, theirs or of events that stay where they are, is held or stopped at its cost. None where an event gives
 * no dependable pitch or lies nowhere.
 * @throws HarteError on a chord label that cannot be read
 */
export function otherGrips({ copedent, events, part, semitones, key, changes }: GripsQuestion): GripWay[] {
  const [first, last] = [events[0], events.at(-1)];
  if (!first || !last) return [];
  const ids = new Set(events.map(({ id }) => id));
  const others = part.filter(({ id }) => !ids.has(id));
  const between = others.filter(
    ({ startSec }) =>
      startSec > first.startSec - SAME_MOMENT_SEC && startSec < last.startSec + SAME_MOMENT_SEC,
  );
  const groups = strokesOf([...events, ...between].sort((a, b) => a.startSec - b.startSec));
  const earlier = others.filter(({ startSec }) => startSec <= first.startSec - SAME_MOMENT_SEC);
  const notesOf = (event: ShownPart) => soundsOf(copedent, event, ids.has(event.id) ? semitones : 0);
  if (events.some((event) => notesOf(event).length < event.strings.length)) return [];
  const before = heldBefore(copedent, earlier, first.startSec, notesOf);
  const strokes: Stroke[] = [];
  for (const begun of groups) {
    const isFixed = begun.every(({ id }) => !ids.has(id));
    const mayRing = (event: ShownPart) =>
      !isFixed || (!ids.has(event.id) && isHeldWith(copedent, event, begun[0]!));
    strokes.push(strokeAt(begun, strokes.at(-1) ?? before, notesOf, mayRing));
  }
  const heard = strokes.map((stroke): HeardEvent => {
    const staying = stroke.begun.filter(({ id }) => !ids.has(id));
    const asked = heardStroke(stroke, changes);
    if (staying.length === 0) return asked;
    if (staying.length === stroke.begun.length) return { ...asked, place: placeOf(stroke) };
    return { ...asked, locks: locksFor(staying, stroke, copedent) };
  });
  const atBefore: HeardEvent[] = before
    ? [{ ...heardStroke(before, changes), soundsOn: [], place: placeOf(before) }]
    : [];
  const after = fixed(
    copedent,
    others.find(({ startSec }) => startSec >= last.startSec + SAME_MOMENT_SEC),
  );
  const placed = placeSequence(copedent, [...atBefore, ...heard, ...after], { key });
  return waysThrough(placed).flatMap(({ places }) => {
    const own = places.slice(atBefore.length, atBefore.length + strokes.length);
    const way = new Map<string, ShownPart>();
    for (const [at, { begun, notes }] of strokes.entries())
      for (const event of begun.filter(({ id }) => ids.has(id))) {
        const laid = laidAt(event, notes, own[at] ?? null);
        if (laid === null) return [];
        way.set(event.id, laid);
      }
    return [new Map([...way].map(([id, event]) => [id, beginning(event, part, way)]))];
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

/** The strings of an event that give a pitch. */
function soundsOf(copedent: Copedent, event: ShownPart, semitones: Semitones): Note[] {
  const pitches = pitchesOf(copedent, event);
  return event.strings.flatMap((string, at): Note[] => {
    const midi = pitches[at] ?? null;
    return midi === null ? [] : [{ event, string, midi: midi + semitones, goesOn: null }];
  });
}

/** @param mayRing whether what an event before sounds is followed here */
function strokeAt(
  begun: readonly ShownPart[],
  before: Stroke | null,
  notesOf: (event: ShownPart) => readonly Note[],
  mayRing: (event: ShownPart) => boolean,
): Stroke {
  const startSec = begun[0]!.startSec;
  const earlier = before?.notes ?? [];
  const own = begun.flatMap((event) =>
    notesOf(event).map((note): Note => {
      const from =
        event.articulation === "pick" ? -1 : earlier.findIndex(({ string }) => string === note.string);
      if (from < 0) return note;
      const glides = earlier[from]!.midi !== note.midi;
      return { ...note, goesOn: { from, forSec: event.endSec - event.startSec, glides } };
    }),
  );
  const ringing = earlier
    .map((note, from): Note => {
      const forSec = note.event.endSec - startSec;
      return { ...note, goesOn: { from, forSec, glides: false } };
    })
    .filter(
      ({ event, string, midi, goesOn }) =>
        goesOn!.forSec >= RINGS_FROM_SEC &&
        mayRing(event) &&
        own.every((note) => note.string !== string && note.midi !== midi),
    )
    .sort((a, b) => b.goesOn!.forSec - a.goesOn!.forSec)
    .slice(0, MOST_RINGING);
  return { startSec, begun, notes: [...own, ...ringing] };
}

/** What was played last before them, with what rings beside it where the hand lies for that too. */
function heldBefore(
  copedent: Copedent,
  earlier: readonly ShownPart[],
  startSec: Seconds,
  notesOf: (event: ShownPart) => readonly Note[],
): Stroke | null {
  const last = earlier.at(-1);
  if (!last || notesOf(last).length < last.strings.length) return null;
  const ringing = earlier
    .slice(0, -1)
    .filter((event) => event.endSec - startSec >= RINGS_FROM_SEC && isHeldWith(copedent, event, last));
  const notes = [last, ...ringing.reverse()].flatMap(notesOf);
  const once = notes.filter(({ string }, at) => notes.findIndex((note) => note.string === string) === at);
  return { startSec: last.startSec, begun: [last], notes: once };
}

/**
 * Whether what rings sounds on under a later stroke that is not laid anew: where one bar with the same pedals holds both, or a
 * hand reaches both with a finger each. Otherwise the hand has left it.
 */
function isHeldWith({ stoppedBy }: Copedent, ringing: ShownPart, stroke: ShownPart): boolean {
  if (stoppedBy === "bar")
    return (
      ringing.fret === stroke.fret &&
      !ringing.frets &&
      !stroke.frets &&
      sorted(ringing.changes) === sorted(stroke.changes)
    );
  const frets = [...fretsOf(ringing), ...fretsOf(stroke)].filter((fret) => fret > 0);
  return frets.length === 0 || Math.max(...frets) - Math.min(...frets) <= HAND_FRETS;
}

/** Where all that sounds in a stroke lies as it is written, what rings on where it was. */
function placeOf({ begun, notes }: Stroke): EventPlace {
  const [{ changes }] = begun as [ShownPart];
  const held = settleFrets(notes.map(({ event, string }) => fretOn(event, string)));
  return { strings: notes.map(({ string }) => string), ...held, changes };
}

/** What begins with them but stays where it is binds the hand that holds both. */
function locksFor(
  staying: readonly ShownPart[],
  { notes }: Stroke,
  { stoppedBy }: Copedent,
): HeardEvent["locks"] {
  const [{ fret, frets, changes }] = staying as [ShownPart];
  const strings = notes
    .filter(({ event }) => staying.includes(event))
    .map(({ string, midi }) => ({ midi, string }));
  return stoppedBy === "fingers" || frets ? { strings } : { strings, fret, changes };
}

function heardStroke({ startSec, notes }: Stroke, changes: readonly ShownChange[]): HeardEvent {
  const chordLabel = changes.find((each) => each.startSec <= startSec && each.endSec > startSec)?.label;
  return {
    startSec,
    endSec: Math.max(...notes.map(({ event }) => event.endSec)),
    notesMidi: notes.map(({ midi }) => midi),
    soundsOn: notes.map(({ goesOn }) => goesOn),
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

function sorted(changes: readonly string[]): string {
  return [...changes].sort().join();
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
function beginning(event: ShownPart, part: readonly ShownPart[], way: ReadonlyMap<string, ShownPart>) {
  const { strings, fret, frets = null, changes } = event;
  const now = part.map((each) => way.get(each.id) ?? each);
  const before = eventBefore(now, event.startSec, strings);
  const articulation = laidArticulation(event, before);
  return { strings, fret, frets, changes, articulation } as const;
}
