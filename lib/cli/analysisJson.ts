import type { Certainty, HeardHome, Hearing } from "@/lib/hearing/Hearing";
import type { Mode } from "@/lib/theory/key";
import type { Cents, Midi, Seconds, Semitones } from "@/lib/units/quantities";
import { rounded } from "./rounded";

/** A hearing as the command line prints it; times are seconds of the record. */
export interface Analysis {
  /** How far the record stands from A4 = 440 Hz. */
  tuningCents: Cents;
  /** The home that the record spends most of its time in. */
  key: { tonic: string; mode: Mode; confidence: Certainty };
  /** Beats a minute. */
  tempo: number;
  /** Beats to the bar. */
  meter: number;
  beats: Seconds[];
  downbeats: Seconds[];
  /** Labels in Harte syntax. */
  chords: { start: Seconds; end: Seconds; label: string; confidence: Certainty }[];
  homes: { start: Seconds; end: Seconds; tonic: string; mode: Mode; confidence: Certainty }[];
  /** The bass line; MIDI numbers of the record as it is tuned. */
  bass: { start: Seconds; end: Seconds; midi: Midi; confidence: Certainty }[];
  /** Sections of one label repeat one another, `transposed` semitones above the first of them. */
  sections: {
    start: Seconds;
    end: Seconds;
    label: string;
    transposed: Semitones;
    confidence: Certainty;
  }[];
}

/** The home with the most seconds, all its stretches together; its confidence is their average over time. */
export function mainHome(homes: readonly HeardHome[]): Analysis["key"] {
  const weighed = new Map<string, { home: HeardHome; seconds: number; certainSeconds: number }>();
  for (const home of homes) {
    const seconds = home.endSec - home.startSec;
    const name = `${home.tonic} ${home.mode}`;
    const sum = weighed.get(name) ?? { home, seconds: 0, certainSeconds: 0 };
    sum.seconds += seconds;
    sum.certainSeconds += seconds * home.confidence;
    weighed.set(name, sum);
  }
  const [first] = [...weighed.values()].sort((a, b) => b.seconds - a.seconds);
  if (!first) throw new RangeError("a hearing has at least one home");
  const { tonic, mode, confidence } = first.home;
  return { tonic, mode, confidence: first.seconds > 0 ? first.certainSeconds / first.seconds : confidence };
}

export function toAnalysis(hearing: Hearing): Analysis {
  const key = mainHome(hearing.homes);
  const { grid } = hearing;
  return {
    tuningCents: rounded(hearing.tuningCents),
    key: { ...key, confidence: rounded(key.confidence) },
    tempo: rounded(grid.tempoBpm),
    meter: grid.beatsPerBar,
    beats: grid.beats.map(({ timeSec }) => rounded(timeSec)),
    downbeats: grid.beats.filter(({ inBar }) => inBar === 1).map(({ timeSec }) => rounded(timeSec)),
    chords: hearing.chords.map(({ startSec, endSec, label, confidence }) => ({
      start: rounded(startSec),
      end: rounded(endSec),
      label,
      confidence: rounded(confidence),
    })),
    homes: hearing.homes.map(({ startSec, endSec, tonic, mode, confidence }) => ({
      start: rounded(startSec),
      end: rounded(endSec),
      tonic,
      mode,
      confidence: rounded(confidence),
    })),
    bass: hearing.bass.map(({ startSec, endSec, midi, confidence }) => ({
      start: rounded(startSec),
      end: rounded(endSec),
      midi,
      confidence: rounded(confidence),
    })),
    sections: hearing.sections.map(({ startSec, endSec, label, transposedSemitones, confidence }) => ({
      start: rounded(startSec),
      end: rounded(endSec),
      label,
      transposed: transposedSemitones,
      confidence: rounded(confidence),
    })),
  };
}
