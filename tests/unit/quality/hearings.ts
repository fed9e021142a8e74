import { toAnalysis } from "@/lib/cli/analysisJson";
import type { HeardChord, HeardHome, Hearing } from "@/lib/hearing/Hearing";
import type { Prediction } from "../../quality/prediction";

/** Beats of one length from a moment on, `beatsPerBar` to the bar, the first being `inBar` in its bar. */
export function beats(count: number, startSec: number, stepSec: number, beatsPerBar = 4, inBar = 1) {
  return Array.from({ length: count }, (_, i) => ({
    timeSec: startSec + i * stepSec,
    inBar: ((i + inBar - 1) % beatsPerBar) + 1,
  }));
}

export function chord(startSec: number, endSec: number, label: string, confidence = 0.9): HeardChord {
  return { startSec, endSec, label, confidence, nextBest: [] };
}

export function home(
  startSec: number,
  endSec: number,
  tonic: string,
  mode: "major" | "minor" = "major",
): HeardHome {
  return { startSec, endSec, tonic, mode, confidence: 0.8, nextBest: [] };
}

/** What an ear might have said of a record of twenty seconds. */
export function prediction(said: Partial<Hearing> = {}): Prediction {
  const hearing: Hearing = {
    version: "test",
    durationSec: 20,
    tuningCents: 0,
    tuningConfidence: 0.9,
    grid: {
      ...{ beats: beats(40, 0, 0.5), tempoBpm: 120, beatsPerBar: 4, division: 2, freeStretches: [] },
      ...{ beatsConfidence: 0.8, barsConfidence: 0.5 },
    },
    homes: [home(0, 20, "G")],
    chords: [chord(0, 20, "G:maj")],
    bass: [],
    sections: [],
    ...said,
  };
  return { ...toAnalysis(hearing), hearing, fits: [] };
}
