import { HEARING_RATE_HZ } from "../parameters";

/** Fixed extents of the two networks, the ear and the notes ear, those that their training shares. */

/** Semitones from C1 up, 8 octaves. */
export const SEMITONES = 96;
export const OCTAVES = 8;
export const BINS_PER_SEMITONE = 3;
export const BINS = SEMITONES * BINS_PER_SEMITONE;
/** MIDI pitch of semitone 0. */
export const LOWEST_MIDI = 24;
/** Frames of silence put before the record and after it. */
export const PADDING_FRAMES = 8;
/** Frames to one step of the chord head. */
export const CHORD_STEP_FRAMES = 4;
/** Bins by which each spectrum of a frame is moved, a list a spectrum. */
export type BankShifts = readonly (readonly number[])[];
/**
 * Bins by which spectra are moved, so that a note's harmonics lie over its fundamental: harmonics 1/2, 1, 2, 3, 4, 5,
 * 6, 7, or 1, 2, 3, 4 (R. Bittner et al., "Deep salience representations for F0 estimation in polyphonic music",
 * ISMIR 2017).
 */
const LONG_SHIFTS = [-36, 0, 36, 57, 72, 84, 93, 101] as const;
const SHORT_SHIFTS = [0, 36, 57, 72] as const;
const SIDE_SHIFTS = SHORT_SHIFTS;
const BALANCE_SHIFTS = SHORT_SHIFTS;
/** The ear hears what channels share in long and in short windows. */
export const EAR_SHIFTS: BankShifts = [LONG_SHIFTS, SHORT_SHIFTS];
/** The notes ear also hears in long windows what tells channels apart, and which of them is the louder. */
export const NOTES_EAR_SHIFTS: BankShifts = [...EAR_SHIFTS, SIDE_SHIFTS, BALANCE_SHIFTS];
/**
 * What the note heads say of each semitone of a frame. Onset, frame: a note begins, sounds; steel, melody: it is the
 * steel's, another lead's; arrival: a glide gets there; offset: how far off the semitone it is; steelOnset: the steel is
 * picked anew; bass, bassOnset: a note of the bass line sounds, begins; pedal: what arrives was moved by a pedal or
 * lever rather than by the bar, which means something only where something arrives; bandOnset: others than the steel
 * strike it, perhaps with the steel.
 */
const SHARED_NOTE_MAPS = ["onset", "frame", "steel", "offset", "arrival", "melody", "steelOnset"] as const;
/** By place; weights say which of these they hold, always the first ones. */
export const EAR_NOTE_MAPS = [...SHARED_NOTE_MAPS, "bass", "bassOnset"] as const;
export const NOTES_EAR_NOTE_MAPS = [...SHARED_NOTE_MAPS, "pedal", "bandOnset"] as const;
export type NoteMap = (typeof EAR_NOTE_MAPS | typeof NOTES_EAR_NOTE_MAPS)[number];
/** The inverted residual blocks of the trunk: dilation over time and over semitones; 12 sees the octave. */
export const TRUNK_BLOCKS = [
  { timeDilation: 1, semitoneDilation: 1 },
  { timeDilation: 2, semitoneDilation: 1 },
  { timeDilation: 1, semitoneDilation: 12 },
  { timeDilation: 4, semitoneDilation: 1 },
  { timeDilation: 8, semitoneDilation: 1 },
  { timeDilation: 1, semitoneDilation: 1 },
] as const;
/** Blocks before the global context. */
export const BLOCKS_BEFORE_CONTEXT = 3;
/** Dilations of the blocks over time: of the global context, of chords (circular over pitch classes or not), of beats. */
export const CONTEXT_DILATIONS = [1, 4, 12] as const;
export const CHORD_BLOCKS = [
  { dilation: 1, circular: true },
  { dilation: 2, circular: false },
  { dilation: 4, circular: true },
  { dilation: 8, circular: false },
] as const;
export const BEAT_DILATIONS = [1, 2, 4, 8, 16, 32, 64, 128] as const;

/** Samples from one frame to the next. */
export const HOP = 512;
/** Features are ln(1 + this a) / 4 of an amplitude a. */
export const LOG_GAIN = 1e4;
/** Window lengths of the two banks: so many cycles of the bin's frequency, within bounds in samples. */
export const BANK_WINDOWS = [
  { cycles: 40, fewest: 1024, most: 8192 },
  { cycles: 12, fewest: 512, most: 2048 },
] as const;
/** Largest distance from the semitone that the offset map can say, in semitones. */
export const OFFSET_REACH = 0.6;

/** What both networks share, by the names that the training writes beside the weights. */
const SHARED_LAYOUT = {
  sampleRate: HEARING_RATE_HZ,
  hop: HOP,
  lowestMidi: LOWEST_MIDI,
  semitones: SEMITONES,
  bins: BINS,
  banks: BANK_WINDOWS,
  logGain: LOG_GAIN,
  longShifts: LONG_SHIFTS,
  shortShifts: SHORT_SHIFTS,
  blockDilations: TRUNK_BLOCKS.map(({ timeDilation, semitoneDilation }) => [timeDilation, semitoneDilation]),
  globalAfter: BLOCKS_BEFORE_CONTEXT,
  globalDilations: CONTEXT_DILATIONS,
  offsetReach: OFFSET_REACH,
} as const;

/** The ear's layout but its note maps. */
export const EAR_LAYOUT = {
  ...SHARED_LAYOUT,
  format: "ear-weights",
  chordPool: CHORD_STEP_FRAMES,
  chordBlocks: CHORD_BLOCKS,
  beatDilations: BEAT_DILATIONS,
} as const;

/** The notes ear's layout but its note maps. */
export const NOTES_EAR_LAYOUT = {
  ...SHARED_LAYOUT,
  format: "notes-ear-weights",
  sideShifts: SIDE_SHIFTS,
  balanceShifts: BALANCE_SHIFTS,
} as const;
