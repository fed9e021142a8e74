import type { Certainty, ChordGuess, HeardGlide, HeardStretch, KeyGuess } from "@/lib/hearing/Hearing";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Mode } from "@/lib/theory/key";
import type { Cents, EpochMs, Midi, Seconds, Semitones } from "@/lib/units/quantities";
import type { ListeningSettings } from "./ListeningSettings";
import type { Mark, Stamp } from "./Stamp";

/** What every record of the shared song carries. */
export interface RecordBase extends Stamp {
  id: string;
  mark: Mark;
  /** How sure the machine was; null where a person made it. */
  confidence: Certainty | null;
}

/** How far the record as a whole stands from A4 = 440 Hz. */
export interface TuningRecord extends RecordBase {
  tuningCents: Cents;
}

/** A stretch of the beat grid. */
export interface GridRecord extends RecordBase {
  /** Beat times, ascending. */
  beatsSec: Seconds[];
  /** Position in the bar of each beat, 1 = downbeat; as long as `beatsSec`. */
  inBar: number[];
  beatsPerBar: number;
  /** Parts that a beat falls into; 2 where the record does not say (rule D24). */
  division: 2 | 3;
  /** Where no steady beat is played; in order, often none. */
  freeStretches: HeardStretch[];
  /** How sure the machine was of the beats, and of where bars begin; null where it did not say, or was overruled. */
  beatsConfidence: Certainty | null;
  barsConfidence: Certainty | null;
}

/** Where home is, from `startSec` until the next home. */
export interface HomeRecord extends RecordBase {
  startSec: Seconds;
  tonic: string;
  mode: Mode;
  /** What the machine took it for, likeliest first (rule D23); empty where a person made it. */
  guesses: KeyGuess[];
}

/** A chord change. */
export interface ChangeRecord extends RecordBase {
  startSec: Seconds;
  endSec: Seconds;
  /** Harte label; `N` for no chord. */
  label: string;
  /** What the machine took it for, likeliest first (rule D23); empty where a person made it. */
  guesses: ChordGuess[];
}

/** A note of the bass line. */
export interface BassRecord extends RecordBase {
  startSec: Seconds;
  endSec: Seconds;
  /** Whole; 60 is the record's middle C, wherever that lies. */
  midi: Midi;
}

/** A stretch that has a name: verse, chorus, or the machine's letter. */
export interface SectionRecord extends RecordBase {
  startSec: Seconds;
  endSec: Seconds;
  /** Sections with one label repeat one another (rule D22). */
  label: string;
  /** Semitones, -5 to 6, above the first section of that label. */
  transposedSemitones: Semitones;
}

/** Whose a note is, as far as people said so (rule D31). */
export interface NoteRole {
  whose: "steel" | "band";
  /** Who said so last, and when. */
  by: string;
  atMs: EpochMs;
}

/** A note that was heard, whatever way its pitch takes; several may sound at once (rule D25). */
export interface NoteRecord extends RecordBase {
  startSec: Seconds;
  endSec: Seconds;
  /** Where it begins; 60 is the record's middle C, wherever that lies, and fractions stand for notes that are off. */
  midi: Midi;
  /** In order of time, all within the note (rule D27). */
  glides: HeardGlide[];
  /** How likely the machine took it for the steel's; null where it did not say. */
  steel: Certainty | null;
  /** Whose people said it is; null where nobody did, and it is the steel's. */
  role: NoteRole | null;
}

/** An event of the part, written by a person (ink) or proposed (pencil). */
export interface PartRecord extends RecordBase, PartEvent {
  /** The id of the part it belongs to (rule D52). */
  part: string;
}

/** How often one person played a study's loop through (rule D41), or made a clean take of it (rule D64), on all devices together. */
export interface ThroughCount {
  by: string;
  times: number;
  /** Of these, at full speed or faster throughout. */
  fullSpeedTimes: number;
  /** When last. */
  atMs: EpochMs;
}

/** How one person listens to a study (rule D42). */
export interface StudyListening {
  by: string;
  atMs: EpochMs;
  /** Whether it plays over and over. */
  isLooped: boolean;
  settings: ListeningSettings;
}

/** What the latest check of a study found to fit (rule D43). */
export interface StudyCheck {
  by: string;
  atMs: EpochMs;
  /** Of each event that fitted, by its id, a sign of what it then said. */
  fits: Readonly<Record<string, string>>;
}

/** What people did with a study, as far as it is counted and kept; no edit of it. */
export interface Practice {
  /** By person id. */
  through: ThroughCount[];
  /** Clean takes, by person id. */
  clean: ThroughCount[];
  /** The latest first. */
  listening: StudyListening[];
  /** Null before any. */
  check: StudyCheck | null;
}

/** A stretch that is worked on, with a name or without: on the page a passage. They may overlap (rule D40). */
export interface StudyRecord extends RecordBase, Practice {
  startSec: Seconds;
  endSec: Seconds;
  /** Empty where nobody named it. */
  name: string;
}

/** One map of the document for each kind of record. */
export interface RecordKinds {
  tuning: TuningRecord;
  grid: GridRecord;
  home: HomeRecord;
  change: ChangeRecord;
  bass: BassRecord;
  section: SectionRecord;
  note: NoteRecord;
  part: PartRecord;
  study: StudyRecord;
}
export type RecordKind = keyof RecordKinds;
