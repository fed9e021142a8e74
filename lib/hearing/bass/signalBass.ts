import { FrameMatrix } from "@/lib/dsp/FrameMatrix";
import type { PitchSpectra } from "../evidence";
import { NoteActivation } from "../noteActivation";
import type { BeatEvidence } from "../novelty";
import { ONSETS } from "../parameters";
import { BASS_PITCHES, type BassEvidence, LOWEST_BASS } from "./BassEvidence";
import { lowestIsBass } from "./lowestIsBass";
import { BASS, SIGNAL_BASS } from "./parameters";

type Onsets = Pick<BeatEvidence, "onset" | "low" | "frameRateHz">;

/**
 * The bass as the plain signal gives it: the lowest note of an approximate transcription ({@link NoteActivation}),
 * and its beginnings by onsets, of the low bands before all, and by how much its own activation rises there.
 */
export function signalBass(spectra: PitchSpectra, onsets: Onsets): BassEvidence {
  const frameRateHz = onsets.frameRateHz / SIGNAL_BASS.onsetFrames;
  const count = Math.ceil(onsets.onset.length / SIGNAL_BASS.onsetFrames);
  const evidence: BassEvidence = {
    frameRateHz,
    startSec: 0,
    sounding: new FrameMatrix(count, BASS_PITCHES + 1),
    onset: new FrameMatrix(count, BASS_PITCHES),
  };
  const notes = lowNotes(spectra);
  const noteRateHz = spectra.frameRateHz / SIGNAL_BASS.spectraApart;
  const apart = Math.max(1, Math.round(SIGNAL_BASS.riseSec * noteRateHz));
  const noteAt = (index: number): Float64Array => notes[Math.max(0, Math.min(notes.length - 1, index))]!;
  const strength = onsetStrength(onsets, count);
  for (let t = 0; t < count; t++) {
    const at = Math.round((t / frameRateHz) * noteRateHz);
    const sounding = evidence.sounding.row(t);
    lowestIsBass(soundingOf(noteAt(at)), sounding);
    for (let p = 0; p <= BASS_PITCHES; p++) sounding[p]! *= SIGNAL_BASS.trust;
    const struck = evidence.onset.row(t).fill(-BASS.surestOnset);
    const isPeak = strength[t]! > (strength[t - 1] ?? 0) && strength[t]! >= (strength[t + 1] ?? 0);
    if (!isPeak) continue;
    const before = noteAt(at - apart);
    const after = noteAt(at + apart);
    for (let p = 0; p < BASS_PITCHES; p++) {
      struck[p] =
        SIGNAL_BASS.strengthWeight * strength[t]! - SIGNAL_BASS.onsetCost + riseNats(before[p]!, after[p]!);
    }
  }
  return evidence;
}

/** Activations of the pitches of a bass, a row for each of the spectra that is looked at. */
function lowNotes({ frames, scale }: PitchSpectra): Float64Array[] {
  const activation = new NoteActivation(scale);
  const first = LOWEST_BASS - activation.lowestMidi;
  const rows: Float64Array[] = [];
  for (let t = 0; t < frames.rows; t += SIGNAL_BASS.spectraApart) {
    rows.push(activation.solve(Float64Array.from(frames.row(t))).slice(first, first + BASS_PITCHES));
  }
  return rows;
}

/** Probability that each pitch sounds: even where its activation stands at a share of the strongest and a little over. */
function soundingOf(activations: Float64Array): Float64Array {
  const { evenActivation, evenShare, steepness } = SIGNAL_BASS;
  const strongest = activations.reduce((most, value) => Math.max(most, value), 0);
  const even = (evenActivation + evenShare * strongest) ** steepness;
  return activations.map((value) => value ** steepness / (value ** steepness + even));
}

function riseNats(before: number, after: number): number {
  const { leastActivation, mostRise } = SIGNAL_BASS;
  const rise = Math.log((after + leastActivation) / (before + leastActivation));
  return Math.max(-mostRise, Math.min(mostRise, rise));
}

/** Onset strength on the frames of the evidence, that of all bands added to that of the low ones in a small share. */
function onsetStrength({ onset, low, frameRateHz }: Onsets, count: number): Float64Array {
  const { onsetFrames, allShare, strongestOnset } = SIGNAL_BASS;
  const delay = ONSETS.delaySec * frameRateHz;
  return Float64Array.from({ length: count }, (_, t) => {
    let most = 0;
    const from = Math.round(t * onsetFrames + delay);
    for (let i = from; i < from + onsetFrames; i++) {
      most = Math.max(most, (low[i] ?? 0) + allShare * (onset[i] ?? 0));
    }
    return Math.min(strongestOnset, most);
  });
}
