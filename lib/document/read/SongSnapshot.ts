import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { EpochMs, Seconds } from "@/lib/units/quantities";
import type { Cover, Look } from "../records/covers";
import type { ShownGuess } from "../records/guesses";
import type { ShownQuestion } from "../records/questions";
import type {
  GridRecord,
  HomeRecord,
  NoteRecord,
  PartRecord,
  RecordKind,
  RecordKinds,
  StudyRecord,
  TuningRecord,
} from "../records/records";
import type { ShownPassage } from "./passages";
import type { PartHead, SaidPart } from "./readHead";

/** Kinds whose records lie one after another in time, of which one is shown at every instant (rule D11). */
export type StretchKind = "change" | "bass" | "section";

/** Where a record is seen: one stretch that it wins, which may be shorter than what was written. */
export interface StretchPlace {
  /** The stretch as written in the record, before overlaps were resolved. */
  writtenStartSec: Seconds;
  writtenEndSec: Seconds;
  /** 0 for the record's first shown stretch, 1 for the next; `id` and `stretch` together are unique. */
  stretch: number;
}

export type ShownStretch<K extends StretchKind> = RecordKinds[K] & StretchPlace;
export type ShownChange = ShownStretch<"change">;
export type ShownBassNote = ShownStretch<"bass">;
export type ShownSection = ShownStretch<"section">;

/** A heard note as everyone sees it; notes may sound at once. */
export type ShownNote = NoteRecord;

/** A part event as everyone sees it: on the strings it keeps, until the next event cuts it off. */
export interface ShownPart extends PartRecord {
  writtenEndSec: Seconds;
  writtenStrings: number[];
}

/** One part: what is said of it as a whole, and its events. */
export interface SongPart extends Omit<SaidPart, "isThere"> {
  /** In order of time, then lowest string number. */
  events: ShownPart[];
}

/** A study as everyone sees it, numbered from 1 by the order of all (rule D40). */
export interface ShownStudy extends StudyRecord {
  number: number;
}

/** The whole song as plain data, the same on every replica that has the same updates. */
export interface SongSnapshot {
  tuning: TuningRecord | null;
  grid: GridRecord | null;
  /** In order of time. */
  homes: HomeRecord[];
  /** Where home is kept from who reads (rule D45), in order of time; left out where it is not. */
  unseenHome?: readonly HeardStretch[];
  /** In order of time, never overlapping. */
  changes: ShownChange[];
  /** In order of time, never overlapping. */
  bass: ShownBassNote[];
  /** In order of time, never overlapping. */
  sections: ShownSection[];
  /** In order of time, then pitch; they may overlap. */
  notes: ShownNote[];
  /** Notes that a person gave to the band (rule D31), in the same order. */
  bandNotes: ShownNote[];
  /** All parts in their order, the first one at least (rule D53). */
  parts: SongPart[];
  /** On what the first part is played; on a page, the part that is at hand there. */
  head: PartHead;
  /** The events of that part. */
  part: ShownPart[];
  /** In order of time, then id; they may overlap. */
  studies: ShownStudy[];
  /** What is kept covered, and for whom (rule D44); `coverSong` takes it out for a reader. */
  covers: Cover[];
  /** Who looked under covers, and where. */
  looks: Look[];
  /** In order of when they were made. */
  guesses: ShownGuess[];
  /** In order of time in the record, then of when they were asked; they may overlap. Covers leave them (rule D61). */
  questions: ShownQuestion[];
  /** Ink that is whole in the document but shows nowhere, because other ink wins all of its place. */
  covered: { [K in RecordKind]: RecordKinds[K][] };
  /** The hearing that the machine's pencil comes from; null before any. */
  heard: { runId: string; version: string; atMs: EpochMs } | null;
  /** Passages that were heard alone since (rule D29), the latest first. */
  passages: ShownPassage[];
  /** Why the song must not be written here; null when it may be. */
  readOnlyBecause: "newerVersion" | null;
}
