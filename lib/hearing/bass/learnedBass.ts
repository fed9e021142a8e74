import { FrameMatrix } from "@/lib/dsp/FrameMatrix";
import { FRAME_RATE_HZ, frameSec } from "../learned/EarFeatures";
import { logOdds } from "../logOdds";
import { BASS_PITCHES, type BassEvidence } from "./BassEvidence";
import type { LowNotes } from "./LowNotes";
import { lowestIsBass } from "./lowestIsBass";
import { BASS } from "./parameters";

/** The bass as a learned ear hears it: the lowest of the notes that it says sound. */
export function learnedBass(notes: Pick<LowNotes, "onset" | "sounding">): BassEvidence {
  const count = notes.sounding.length;
  const evidence: BassEvidence = {
    frameRateHz: FRAME_RATE_HZ,
    startSec: frameSec(0),
    sounding: new FrameMatrix(count, BASS_PITCHES + 1),
    onset: new FrameMatrix(count, BASS_PITCHES),
  };
  for (let t = 0; t < count; t++) {
    lowestIsBass(notes.sounding[t]!, evidence.sounding.row(t));
    const struck = evidence.onset.row(t);
    for (let p = 0; p < BASS_PITCHES; p++) struck[p] = onsetNats(notes.onset, t, p);
  }
  return evidence;
}

/** Log odds of an onset; the network spreads one over some frames, and the tallest of them stands for all. */
function onsetNats(onset: readonly Float32Array[], t: number, p: number): number {
  const here = onset[t]![p]!;
  const before = onset[t - 1]?.[p] ?? 0;
  const after = onset[t + 1]?.[p] ?? 0;
  const isPeak = here >= before && here > after;
  const probability = isPeak ? Math.min(1, (before + here + after) / BASS.onsetArea) : 0;
  const odds = logOdds(probability);
  return Math.max(-BASS.surestOnset, Math.min(BASS.surestOnset, odds)) + BASS.onsetBias;
}
