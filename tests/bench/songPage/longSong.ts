import type { PartEventFields } from "@/lib/document/commands/part";
import type { AskedFields } from "@/lib/document/commands/questions";
import type { HeardNote, Hearing } from "@/lib/hearing/Hearing";
import type { Seconds } from "@/lib/units/quantities";

/** Of the invented song: beats a minute, and beats to the bar. */
const TEMPO_BPM = 112;
const BEATS_PER_BAR = 4;
const BEAT_SEC = 60 / TEMPO_BPM;
const FIRST_BEAT_SEC = 0.4;
/** Two chords a bar, as a walking song has them at most. */
const BEATS_PER_CHANGE = 2;
const BARS_PER_SECTION = 16;
const CHORDS = ["C:maj", "C:maj/3", "F:maj", "D:min", "G:7", "A:min", "F:maj/3", "G:maj"];
/** Semitones above the C of the bass. */
const ROOTS = [0, 4, 5, 2, 7, 9, 9, 7];
const SCALE = [0, 2, 4, 5, 7, 9, 11, 12];
const LETTERS = "ABCDEF";
/** Events of the part to a beat at the size that the bench names: 2,000 in 20 minutes. */
const PART_EVENTS_A_MINUTE = 100;
const QUESTIONS_PER_MINUTE = 25;

/** How large an invented song is. */
export interface SongSize {
  beats: number;
  changes: number;
  bassNotes: number;
  steelNotes: number;
  bandNotes: number;
  partEvents: number;
  questions: number;
}

/** Times of beats up to the end of the record. */
function beatTimes(durationSec: Seconds): Seconds[] {
  const count = Math.floor((durationSec - FIRST_BEAT_SEC) / BEAT_SEC);
  return Array.from({ length: count }, (_, beat) => FIRST_BEAT_SEC + beat * BEAT_SEC);
}

/** Two notes a beat, every fourth with a glide of a whole step by a pedal. */
function steelNotes(beats: readonly Seconds[]): HeardNote[] {
  return beats.flatMap((beatSec, beat) =>
    [0, 0.5].map((share, at): HeardNote => {
      const startSec = beatSec + share * BEAT_SEC;
      const endSec = startSec + 0.46 * BEAT_SEC;
      const midi = 60 + SCALE[(beat * 3 + at * 5) % SCALE.length]!;
      const isGliding = (2 * beat + at) % 4 === 3;
      const glide = { kind: "pedal", toMidi: midi + 2, atSec: startSec + 0.1, durationSec: 0.06 } as const;
      return { startSec, endSec, midi, confidence: 0.8, steel: 0.9, glides: isGliding ? [glide] : [] };
    }),
  );
}

/** Three struck together on each second beat. */
function bandNotes(beats: readonly Seconds[]): HeardNote[] {
  return beats.flatMap((beatSec, beat) =>
    beat % 2 === 0
      ? []
      : [48, 52, 55].map(
          (midi): HeardNote => ({
            startSec: beatSec,
            endSec: beatSec + 0.8 * BEAT_SEC,
            midi: midi + (beat % 5),
            confidence: 0.7,
            steel: 0.05,
            glides: [],
          }),
        ),
  );
}

/** What a machine might have heard in a long record: steady beats, two changes a bar, a bass note a beat, two steel notes a beat. */
export function inventedHearing(durationSec: Seconds): Hearing {
  const beats = beatTimes(durationSec);
  const at = (beat: number) => beats[beat] ?? durationSec;
  const changeCount = Math.floor(beats.length / BEATS_PER_CHANGE);
  const sectionBeats = BARS_PER_SECTION * BEATS_PER_BAR;
  const sectionCount = Math.max(1, Math.floor(beats.length / sectionBeats));
  return {
    version: "invented 1",
    durationSec,
    tuningCents: 4,
    tuningConfidence: 0.9,
    grid: {
      beats: beats.map((timeSec, beat) => ({ timeSec, inBar: (beat % BEATS_PER_BAR) + 1 })),
      tempoBpm: TEMPO_BPM,
      beatsPerBar: BEATS_PER_BAR,
      division: 2,
      freeStretches: [],
      beatsConfidence: 0.95,
      barsConfidence: 0.9,
    },
    homes: [{ startSec: 0, endSec: durationSec, tonic: "C", mode: "major", confidence: 0.9, nextBest: [] }],
    chords: Array.from({ length: changeCount }, (_, index) => ({
      startSec: at(index * BEATS_PER_CHANGE),
      endSec: at((index + 1) * BEATS_PER_CHANGE),
      label: CHORDS[index % CHORDS.length]!,
      confidence: 0.8,
      nextBest: [{ label: CHORDS[(index + 3) % CHORDS.length]!, confidence: 0.1 }],
    })),
    bass: beats.map((startSec, beat) => ({
      startSec,
      endSec: startSec + 0.9 * BEAT_SEC,
      midi: 36 + ROOTS[Math.floor(beat / BEATS_PER_CHANGE) % ROOTS.length]!,
      confidence: 0.8,
    })),
    sections: Array.from({ length: sectionCount }, (_, index) => ({
      startSec: index === 0 ? 0 : at(index * sectionBeats),
      endSec: index === sectionCount - 1 ? durationSec : at((index + 1) * sectionBeats),
      label: LETTERS[index % LETTERS.length]!,
      transposedSemitones: 0,
      confidence: 0.8,
    })),
    notes: [...steelNotes(beats), ...bandNotes(beats)].sort((a, b) => a.startSec - b.startSec),
  };
}

/** A part on E9 as a person might have written it: a pair of strings about twice a bar, up and down the neck. */
export function inventedPart(durationSec: Seconds): PartEventFields[] {
  const count = Math.floor((durationSec / 60) * PART_EVENTS_A_MINUTE);
  const stepSec = (durationSec - 2) / count;
  return Array.from({ length: count }, (_, index) => {
    const startSec = 1 + index * stepSec;
    return {
      startSec,
      endSec: startSec + 0.9 * stepSec,
      strings: index % 3 === 0 ? [4, 5] : index % 3 === 1 ? [5, 6] : [3, 4],
      fret: (index * 2) % 15,
      changes: index % 4 === 1 ? ["A"] : index % 4 === 2 ? ["A", "B"] : [],
      articulation: index % 4 === 1 ? "press" : "pick",
    };
  });
}

/** 25 questions a minute, a beat to two bars long, some of them over one another. */
export function inventedQuestions(durationSec: Seconds): AskedFields[] {
  const count = Math.round((durationSec / 60) * QUESTIONS_PER_MINUTE);
  return Array.from({ length: count }, (_, index) => {
    const startSec = (index * durationSec) / count;
    const endSec = Math.min(durationSec, startSec + (1 + (index % 8)) * BEAT_SEC);
    return { startSec, endSec, words: `Question ${index + 1}: pedal or slide in these beats?` };
  });
}

export function sizeOf(
  hearing: Hearing,
  part: readonly PartEventFields[],
  questions: readonly AskedFields[],
): SongSize {
  const steel = (hearing.notes ?? []).filter((note) => note.steel > 0.5).length;
  return {
    beats: hearing.grid.beats.length,
    changes: hearing.chords.length,
    bassNotes: hearing.bass.length,
    steelNotes: steel,
    bandNotes: (hearing.notes ?? []).length - steel,
    partEvents: part.length,
    questions: questions.length,
  };
}
