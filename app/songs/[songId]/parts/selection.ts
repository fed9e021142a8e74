import type { SongGrid } from "@/lib/client/axis/songGrid";
import { barAt, stepBeat } from "@/lib/client/axis/songGrid";
import type { BandNote } from "@/lib/client/song/heardList";
import { spanOf, standing } from "@/lib/client/song/partSelection";
import { type Caret, eventBeginningAt } from "@/lib/client/song/partTyping";
import type {
  ShownBassNote,
  ShownChange,
  ShownNote,
  ShownPart,
  ShownSection,
  ShownStudy,
  SongSnapshot,
  StretchKind,
} from "@/lib/document/read/SongSnapshot";
import type { ShownQuestion } from "@/lib/document/records/questions";
import type { HomeRecord } from "@/lib/document/records/records";
import { thirdOf } from "@/lib/lesson/compareChords";
import { type Chord, parseHarte } from "@/lib/theory/harte";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";

/** The one selection of the page. */
export type Selection =
  | { kind: StretchKind; id: string; stretch: number }
  | { kind: "note"; id: string }
  /** A note of the band that is no record of the song. */
  | { kind: "band"; note: BandNote }
  | { kind: "home"; id: string }
  /** A passage that is worked on. */
  | { kind: "study"; id: string }
  /** What was asked about a stretch. */
  | { kind: "question"; id: string }
  /** The beat of the grid that lies nearest. */
  | { kind: "beat"; timeSec: Seconds }
  | { kind: "caret"; caret: Caret }
  /** Events of the part, and between which corners they were chosen; the caret's moves on with Shift. */
  | { kind: "events"; ids: readonly string[]; anchor: Caret; caret: Caret }
  | { kind: "span"; startSec: Seconds; endSec: Seconds }
  /** A take, and the stretch of the record that it was played along with. */
  | { kind: "take"; id: string; startSec: Seconds; endSec: Seconds }
  | null;

/** The selected one of a list of changes, bass notes or sections; another stretch of it where that one is gone. */
export function selectedStretch<S extends { id: string; stretch: number }>(
  list: readonly S[],
  kind: StretchKind,
  selection: Selection,
): S | null {
  if (selection?.kind !== kind) return null;
  const same = list.filter((each) => each.id === selection.id);
  return same.find((each) => each.stretch === selection.stretch) ?? same[0] ?? null;
}

export function selectedChange(song: SongSnapshot, selection: Selection): ShownChange | null {
  return selectedStretch(song.changes, "change", selection);
}

export function selectedNote(song: SongSnapshot, selection: Selection): ShownBassNote | null {
  return selectedStretch(song.bass, "bass", selection);
}

/** The selected note of those that were heard, given to the band or not; {@link selectedNote} is the bass line's. */
export function selectedHeard(song: SongSnapshot, selection: Selection): ShownNote | null {
  if (selection?.kind !== "note") return null;
  const isIt = (note: ShownNote) => note.id === selection.id;
  return song.notes.find(isIt) ?? song.bandNotes.find(isIt) ?? null;
}

export function selectedSection(song: SongSnapshot, selection: Selection): ShownSection | null {
  return selectedStretch(song.sections, "section", selection);
}

export function selectedStudy(song: SongSnapshot, selection: Selection): ShownStudy | null {
  if (selection?.kind !== "study") return null;
  return song.studies.find((study) => study.id === selection.id) ?? null;
}

export function selectedHome(song: SongSnapshot, selection: Selection): HomeRecord | null {
  if (selection?.kind !== "home") return null;
  return song.homes.find((home) => home.id === selection.id) ?? null;
}

export function selectedQuestion(song: SongSnapshot, selection: Selection): ShownQuestion | null {
  if (selection?.kind !== "question") return null;
  return song.questions.find(({ id }) => id === selection.id) ?? null;
}

/** What of the song's records is selected, and stands there still: one of these at most. */
export function selectedRecords(song: SongSnapshot, selection: Selection) {
  return {
    change: selectedChange(song, selection),
    note: selectedNote(song, selection),
    heard: selectedHeard(song, selection),
    section: selectedSection(song, selection),
    home: selectedHome(song, selection),
    study: selectedStudy(song, selection),
    question: selectedQuestion(song, selection),
  };
}

export function selectedEvent(song: SongSnapshot, selection: Selection): ShownPart | null {
  return selection?.kind === "caret" ? eventBeginningAt(song.part, selection.caret) : null;
}

/** The events of the part that are chosen: several, or the one at the caret. In order of time. */
export function chosenEvents(song: SongSnapshot, selection: Selection): ShownPart[] {
  if (selection?.kind === "events") return standing(song.part, selection.ids);
  const event = selectedEvent(song, selection);
  return event ? [event] : [];
}

/** The stretch of time that the selection stands for: what "Loop it" loops. */
export function selectedSpan(
  song: SongSnapshot,
  selection: Selection,
  grid: SongGrid | null,
): { startSec: Seconds; endSec: Seconds } | null {
  if (selection === null) return null;
  switch (selection.kind) {
    case "span":
    case "take":
      return selection;
    case "band":
      return selection.note;
    case "change":
      return selectedChange(song, selection);
    case "bass":
      return selectedNote(song, selection);
    case "note":
      return selectedHeard(song, selection);
    case "section":
      return selectedSection(song, selection);
    case "study":
      return selectedStudy(song, selection);
    case "question":
      return audible(selectedQuestion(song, selection), grid);
    case "home":
      return homeSpan(song, selectedHome(song, selection));
    case "beat":
      return barOf(selection.timeSec, grid);
    case "events":
      return spanOf(standing(song.part, selection.ids)) ?? caretSpan(selection.caret.timeSec, grid);
    case "caret": {
      const event = selectedEvent(song, selection);
      if (event) return event;
      return caretSpan(selection.caret.timeSec, grid);
    }
  }
}

/** A beat from the caret on. */
function caretSpan(timeSec: Seconds, grid: SongGrid | null) {
  return { startSec: timeSec, endSec: grid ? stepBeat(grid, timeSec, 1) : timeSec + 0.5 };
}

/** Shorter than this, a stretch is listened to in its bar. */
const AUDIBLE_SEC: Seconds = 0.2;

/** A stretch as one listens to it: a moment in its bar. */
export function audible<S extends { startSec: Seconds; endSec: Seconds }>(
  stretch: S | null,
  grid: SongGrid | null,
): { startSec: Seconds; endSec: Seconds } | null {
  if (!stretch || stretch.endSec - stretch.startSec >= AUDIBLE_SEC) return stretch;
  return barOf(stretch.startSec, grid);
}

/** The bar in which a beat lies: what one listens to while bars are put right. */
function barOf(timeSec: Seconds, grid: SongGrid | null) {
  const bar = grid && barAt(grid, timeSec + 0.001);
  return bar ?? { startSec: timeSec, endSec: timeSec + 0.5 };
}

/** From where to where a home holds: until the next, or to the end of what is known of the song. */
function homeSpan(song: SongSnapshot, home: HomeRecord | null) {
  if (!home) return null;
  const next = song.homes.find((each) => each.startSec > home.startSec);
  const ends = [song.sections.at(-1)?.endSec, song.changes.at(-1)?.endSec, song.grid?.beatsSec.at(-1)];
  const lastSec = Math.max(home.startSec + 1, ...ends.map((sec) => sec ?? 0));
  return { startSec: home.startSec, endSec: next?.startSec ?? lastSec };
}

/** What of a song says where home is, and by what chords notes are spelled where that is kept from who looks. */
export interface SongHomes extends Pick<SongSnapshot, "homes" | "unseenHome"> {
  changes?: SongSnapshot["changes"] | undefined;
}

/** What begins this much before a home, or before a cover over it, belongs to it already. */
const NEAR_SEC: Seconds = 0.01;

/** Whether home is kept from who looks at a time: then no number of it means anything. */
export function isHomeUnseen({ unseenHome = [] }: SongHomes, timeSec: Seconds): boolean {
  // Lanes begin a little before the record.
  const atSec = Math.max(0, timeSec) + NEAR_SEC;
  return unseenHome.some(({ startSec, endSec }) => startSec <= atSec && atSec < endSec);
}

/** The home in force at a time; null where none is known, or it is kept from who looks. */
export function homeAt(song: SongHomes, timeSec: Seconds): HomeRecord | null {
  if (isHomeUnseen(song, timeSec)) return null;
  return song.homes.findLast((each) => each.startSec <= timeSec + NEAR_SEC) ?? song.homes[0] ?? null;
}

/** Home by which numbers are counted at a time; null where it is kept from who looks: then letters stand for numbers. */
export function numberKeyAt(song: SongHomes, timeSec: Seconds): Key | null {
  return isHomeUnseen(song, timeSec) ? null : keyAt(song, timeSec);
}

/**
 * Home by which notes are spelled at a time; C major where none is known. Where it is kept from who looks, notes are spelled by the
 * chord that is seen there, which tells nothing that does not stand on the page.
 */
export function keyAt(song: SongHomes, timeSec: Seconds): Key {
  const home = homeAt(song, timeSec);
  if (home) return { tonic: home.tonic, mode: home.mode };
  return (isHomeUnseen(song, timeSec) ? chordKeyAt(song.changes ?? [], timeSec) : null) ?? C_MAJOR;
}

/** The key of the chord that is played at a time; null where there is none. */
function chordKeyAt(changes: SongSnapshot["changes"], timeSec: Seconds): Key | null {
  const change = changes.find(
    ({ startSec, endSec }) => startSec <= timeSec + NEAR_SEC && timeSec + NEAR_SEC < endSec,
  );
  const chord = change && parseHarte(change.label);
  return chord ? { tonic: chord.rootName, mode: thirdOf(chord) === "minor" ? "minor" : "major" } : null;
}

/** The chord that is played at a time, or comes next; null where there is none. */
export function chordAt(song: SongSnapshot, timeSec: Seconds): Chord | null {
  const change = song.changes.find((each) => each.endSec > timeSec + 0.02);
  return change ? parseHarte(change.label) : null;
}
