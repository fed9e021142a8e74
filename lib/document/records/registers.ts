import type { Certainty, ChordGuess, HeardGlide, HeardStretch, KeyGuess } from "@/lib/hearing/Hearing";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Technique } from "@/lib/notation/Technique";
import type { Mode } from "@/lib/theory/key";
import type { Cents, EpochMs, Midi, Seconds, Semitones } from "@/lib/units/quantities";
import type { NoteRole, RecordKind, StudyCheck, StudyListening, ThroughCount } from "./records";

/** A grid is set whole: beats and their places in the bar mean nothing apart. */
export interface GridBeats {
  /** Ascending. */
  beatsSec: Seconds[];
  /** Position in the bar of each beat, 1 = downbeat; as long as `beatsSec`. */
  inBar: number[];
  beatsPerBar: number;
  /** Parts that a beat falls into (rule D24). */
  division?: 2 | 3;
  /** Where no steady beat is played; in order, without overlap (rule D24). */
  freeStretches?: HeardStretch[];
}

/** A key is set whole: two people at once must not make a third key of halves. */
export interface HomeKey {
  /** Letter and at most one accidental, as in `Eb`. */
  tonic: string;
  mode: Mode;
}

/**
 * Frets by string number, for strings that are held at frets of their own. They name their strings themselves, so that
 * they still say the same where someone else gives the event other strings (rule D37).
 */
export type StringFrets = Readonly<Record<number, number>>;

/**
 * What each kind of record holds, one entry a register: the smallest things that merge one by one (rule D3).
 */
export interface Registers {
  tuning: { tuningCents: Cents };
  grid: { beats: GridBeats };
  home: { startSec: Seconds; key: HomeKey };
  change: { startSec: Seconds; endSec: Seconds; label: string };
  bass: { startSec: Seconds; endSec: Seconds; midi: Midi };
  section: { startSec: Seconds; endSec: Seconds; label: string; transposedSemitones: Semitones };
  note: { startSec: Seconds; endSec: Seconds; midi: Midi; glides: HeardGlide[] };
  /** Each technique is a register of its own, so that those of two people both stand (rule D48). */
  part: Omit<PartEvent, "id" | "frets" | "techniques"> & {
    /** Of which part it is; never edited (rule D52). */
    part: string;
    frets: StringFrets | null;
  } & Record<Technique, boolean>;
  study: { startSec: Seconds; endSec: Seconds; name: string };
}

/** What the machine says of a proposal beside its values (rule D23); null for kinds of which it says no more. */
export interface Asides {
  tuning: null;
  grid: { beatsConfidence: Certainty; barsConfidence: Certainty };
  home: { nextBest: KeyGuess[] };
  change: { nextBest: ChordGuess[] };
  bass: null;
  section: null;
  note: { steel: Certainty };
  part: null;
  study: null;
}

/** What was proposed, by the machine or by a person. Only its maker writes it. */
export interface Pencil<K extends RecordKind> {
  by: string;
  atMs: EpochMs;
  confidence: Certainty | null;
  values: Registers[K];
  /** Not written where there is nothing to say. */
  aside?: Asides[K];
  /** Name and number of the method that was the first to say just this (rule D34); only of the machine. */
  ear?: string;
}

/** That one person settled the record. Each person has a register of their own. */
export interface Ink<K extends RecordKind> {
  /** Differs with every act of inking, so that a rubber can say which ink was seen. */
  stamp: string;
  atMs: EpochMs;
  madeBy: string;
  madeAtMs: EpochMs;
  /** What the record said, apart from the registers that people edited, when it was first settled. */
  values: Registers[K];
}

/** That one person rubbed the record out. Each person has a register of their own. */
export interface Rub {
  /** Differs with every act of rubbing out, so that a restorer can say which were seen. */
  stamp: string;
  atMs: EpochMs;
  /** Stamps of the ink that the person saw. */
  seen: string[];
}

/** That one person put the record back. Each person has a register of their own. */
export interface Restoring {
  atMs: EpochMs;
  /** Stamps of the rubbings-out that the person saw. */
  seen: string[];
}

/** What one hearing of a passage alone found (rule D29); one register, so that it holds whole or not at all. */
export interface PassageSheet extends HeardStretch {
  /** Who had it heard. */
  by: string;
  atMs: EpochMs;
  /** Name and number of the method. */
  version: string;
  /** The hearing of the whole song that it was heard over; null before any. */
  overRunId: string | null;
  /** The machine's pencil of the steel's notes that begin in it. */
  notes: ({ id: string } & Pencil<"note">)[];
}

/** That one person said whose a note is. Each person has a register of their own. */
export type SaidRole = Omit<NoteRole, "by">;

/**
 * How often one person played a study through, or made a clean take of it, on one device. Each device of each person has a
 * register of its own for either.
 */
export type CountedThrough = Omit<ThroughCount, "by">;

/** How one person listens to a study. Each person has a register of their own. */
export type KeptListening = Omit<StudyListening, "by">;

/** What one person's latest check of a study found. Each person has a register of their own. */
export type KeptCheck = Omit<StudyCheck, "by">;

/** What the latest hearing found; one register, so that one hearing or another holds, never a mixture. */
export interface HeardSheet {
  runId: string;
  /** Name and number of the method. */
  version: string;
  atMs: EpochMs;
  /** Ids of the records that this hearing proposes. */
  ids: Record<RecordKind, string[]>;
}
