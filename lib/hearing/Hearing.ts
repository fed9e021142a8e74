import type { Mode } from "@/lib/theory/key";
import type { Cents, Midi, Seconds } from "@/lib/units/quantities";

/** How sure the ear is, 0 (a guess) to 1 (certain). */
export type Certainty = number;

/** One beat of the grid the ear found. */
export interface HeardBeat {
  timeSec: Seconds;
  /** Position in the bar, 1 = downbeat. */
  inBar: number;
}

/** The beat grid over the whole record. */
export interface HeardGrid {
  beats: HeardBeat[];
  /** Beats a minute over the record, median of the beat intervals. */
  tempoBpm: number;
  /** Beats to the bar: 2, 3, 4 or 6. */
  beatsPerBar: number;
  /** Parts that a beat falls into: 3 in 6/8 counted in two, in 12/8 counted in four, and where it swings. */
  division: 2 | 3;
  /** Where no steady beat is played (free time, or nothing to count by); in order, often none. */
  freeStretches: HeardStretch[];
  /** How sure it is that people would tap these beats, at this level. */
  beatsConfidence: Certainty;
  /** How sure it is that bars begin where they are said to, if the beats are right. */
  barsConfidence: Certainty;
}

/** A stretch of the record. */
export interface HeardStretch {
  startSec: Seconds;
  endSec: Seconds;
}

/** A guess at the key. */
export interface KeyGuess {
  /** Spelled tonic: letter and at most one accidental, as in `Eb`, `F#`. */
  tonic: string;
  mode: Mode;
  confidence: Certainty;
}

/** The key ("home") over a stretch of the record. */
export interface HeardHome extends HeardStretch, KeyGuess {
  /** The two next likeliest keys, likelier first. */
  nextBest: KeyGuess[];
}

/** A guess at a chord. */
export interface ChordGuess {
  /** Harte syntax (Harte et al., ISMIR 2005): `G:maj`, `D:7`, `A:min/b3`, `N` for none. */
  label: string;
  confidence: Certainty;
}

/** One chord change: a stretch with one chord. */
export interface HeardChord extends HeardStretch, ChordGuess {
  /** The two next likeliest chords, likelier first. */
  nextBest: ChordGuess[];
}

/** One note of the bass line. */
export interface HeardBassNote extends HeardStretch {
  /** In tune with the record: 60 is its middle C, wherever that lies. */
  midi: Midi;
  confidence: Certainty;
}

/** What moved a note: a pedal or lever pulls one string against others, the bar takes all of them along. */
export type GlideKind = "pedal" | "bar" | "unsure";

/** One way of a note to another pitch without a new pick. */
export interface HeardGlide {
  kind: GlideKind;
  /** Where it ends. It begins where the glide before it ended, the first at the note's own pitch. */
  toMidi: Midi;
  /** Middle of the way. */
  atSec: Seconds;
  durationSec: Seconds;
}

/**
 * One note from its pick until it is stopped, whatever way its pitch takes. Pitches are in tune with the record: 60
 * is its middle C, wherever that lies; fractions stand for notes that are off by themselves, a vibrato for its centre.
 */
export interface HeardNote extends HeardStretch {
  midi: Midi;
  confidence: Certainty;
  /** How likely the note is the steel's rather than the band's. */
  steel: Certainty;
  /** In order; often none. */
  glides: HeardGlide[];
}

/** A stretch that music lovers would give a name to: verse, chorus, turn-around. */
export interface HeardSection extends HeardStretch {
  /** Capital letter; sections with one letter repeat one another. */
  label: string;
  /** Semitones (-5 to 6) above the first section of that letter. */
  transposedSemitones: number;
  /** How sure it is that this repeats the first of its letter; of the first itself, that it stands for itself. */
  confidence: Certainty;
}

/** Everything the ear says about a record. All times are seconds of the record. */
export interface Hearing {
  /** Name and number of the method, so that stored results can be told apart. */
  version: string;
  durationSec: Seconds;
  /** How far the record stands from A4 = 440 Hz, -50 to +50. */
  tuningCents: Cents;
  tuningConfidence: Certainty;
  grid: HeardGrid;
  /** At least one; in order, without gaps. */
  homes: HeardHome[];
  /** In order, without overlap. */
  chords: HeardChord[];
  /** In order, without overlap. */
  bass: HeardBassNote[];
  /** In order, without gaps, over the whole record; one for a record in which nothing repeats. */
  sections: HeardSection[];
  /**
   * All notes of the record, the steel's and the band's, in order of time. Null where there was no learned ear to hear
   * them; left out where nobody asked for them.
   */
  notes?: HeardNote[] | null;
}

/** The steps of hearing, in order; progress names one of these. */
export const HEARING_STEPS = ["tuning", "beats", "changes", "home", "bass", "sections"] as const;
/** Notes are heard after the tuning, and only where they are asked for. */
export type HearingStep = (typeof HEARING_STEPS)[number] | "notes";

/** Called as the ear works: which step, and how far through that step (0 to 1). */
export type HearingProgress = (step: HearingStep, fraction: number) => void;
