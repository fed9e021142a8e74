import type * as Y from "yjs";
import type { ShownGuess } from "../records/guesses";
import type { ShownQuestion } from "../records/questions";
import type { GridRecord, HomeRecord, RecordKind, RecordKinds, TuningRecord } from "../records/records";
import { isNewer } from "../records/storage";
import { passagesThatHold } from "./passages";
import { compareText } from "./rank";
import { readCovers, type SongCovers } from "./readCovers";
import { readGuesses } from "./readGuesses";
import { readSaidPart, readSaidParts, type SaidPart } from "./readHead";
import { readHomes, readOne } from "./readHomes";
import { readNotes } from "./readNotes";
import { readPart } from "./readPart";
import { readParts } from "./readParts";
import { readQuestions } from "./readQuestions";
import { readStretches } from "./readStretches";
import { readStudies } from "./readStudies";
import type {
  ShownBassNote,
  ShownChange,
  ShownNote,
  ShownPart,
  ShownSection,
  ShownStudy,
  SongSnapshot,
} from "./SongSnapshot";
import { readHeard, settleKind } from "./settle";

/** What is shown of each kind of record. */
interface Shown {
  tuning: TuningRecord | null;
  grid: GridRecord | null;
  home: HomeRecord[];
  change: ShownChange[];
  bass: ShownBassNote[];
  section: ShownSection[];
  note: ShownNote[];
  part: ShownPart[];
  study: ShownStudy[];
}

/** The part of a snapshot that comes from the records of one kind. */
export interface KindReading<K extends RecordKind> {
  shown: Shown[K];
  /** Ink that is shown nowhere. */
  covered: RecordKinds[K][];
}
export type Readings = { [K in RecordKind]: KindReading<K> };

const READERS: { readonly [K in RecordKind]: (records: readonly RecordKinds[K][]) => Shown[K] } = {
  tuning: readOne,
  grid: readOne,
  home: readHomes,
  change: readStretches,
  bass: readStretches,
  section: readStretches,
  note: readNotes,
  part: readPart,
  study: readStudies,
};

/** Reads the records of one kind. */
export function readKind<K extends RecordKind>(doc: Y.Doc, kind: K): KindReading<K> {
  const standing: RecordKinds[K][] = [];
  for (const { record, standing: how } of settleKind(doc, kind).values()) {
    if (how === "shown") standing.push(record);
  }
  const shown: Shown[K] = READERS[kind](standing);
  const shownIds = new Set([shown].flat().map((each) => each?.id));
  const covered = standing
    .filter((record) => record.mark === "ink" && !shownIds.has(record.id))
    .sort((a, b) => compareText(a.id, b.id));
  return { shown, covered };
}

/**
 * The shared song as plain data. Pure: the same updates give the equal snapshot on every replica, in whatever
 * order they came (rule D4). Never throws, whatever the document holds (rule D5).
 */
export function readSong(doc: Y.Doc): SongSnapshot {
  return toSnapshot(doc, readKinds(doc), readApart(doc));
}

/** Reads the records of all kinds. */
export function readKinds(doc: Y.Doc): Readings {
  return {
    tuning: readKind(doc, "tuning"),
    grid: readKind(doc, "grid"),
    home: readKind(doc, "home"),
    change: readKind(doc, "change"),
    bass: readKind(doc, "bass"),
    section: readKind(doc, "section"),
    note: readKind(doc, "note"),
    part: readKind(doc, "part"),
    study: readKind(doc, "study"),
  };
}

/** What is read apart from the kinds of records. */
export interface Apart extends SongCovers {
  said: SaidPart[];
  guesses: ShownGuess[];
  questions: ShownQuestion[];
}

export function readApart(doc: Y.Doc): Apart {
  return {
    said: readSaidParts(doc),
    ...readCovers(doc),
    guesses: readGuesses(doc),
    questions: readQuestions(doc),
  };
}

/** Puts the readings of all kinds and of what is read apart together. */
export function toSnapshot(doc: Y.Doc, readings: Readings, apart: Apart): SongSnapshot {
  const { tuning, grid, home, change, bass, section, note, part, study } = readings;
  const heard = readHeard(doc);
  const parts = readParts(apart.said, part.shown, (id) => readSaidPart(doc, id));
  const first = parts[0]!;
  return {
    tuning: tuning.shown,
    grid: grid.shown,
    homes: home.shown,
    changes: change.shown,
    bass: bass.shown,
    sections: section.shown,
    notes: note.shown.filter(({ role }) => role?.whose !== "band"),
    bandNotes: note.shown.filter(({ role }) => role?.whose === "band"),
    parts,
    head: first.head,
    part: first.events,
    studies: study.shown,
    covers: apart.covers,
    looks: apart.looks,
    guesses: apart.guesses,
    questions: apart.questions,
    covered: {
      tuning: tuning.covered,
      grid: grid.covered,
      home: home.covered,
      change: change.covered,
      bass: bass.covered,
      section: section.covered,
      note: note.covered,
      part: part.covered,
      study: study.covered,
    },
    heard: heard && { runId: heard.runId, version: heard.version, atMs: heard.atMs },
    passages: passagesThatHold(doc, heard).map(({ id, startSec, endSec, by, atMs }) => ({
      id,
      startSec,
      endSec,
      by,
      atMs,
    })),
    readOnlyBecause: isNewer(doc) ? "newerVersion" : null,
  };
}
