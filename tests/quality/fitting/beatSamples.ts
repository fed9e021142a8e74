import { Signal } from "@/lib/dsp/Signal";
import { chooseBeats } from "@/lib/hearing/beatLevel";
import { stretchChroma } from "@/lib/hearing/chroma";
import { hearOnsets, hearPitchSpectra } from "@/lib/hearing/evidence";
import type { BarsStanding } from "@/lib/hearing/gridCertainty";
import { hearHarmony } from "@/lib/hearing/harmony";
import { beatCurves } from "@/lib/hearing/learned/beatCurves";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { beatEvidence } from "@/lib/hearing/novelty";
import { HEARING_RATE_HZ, ONSETS } from "@/lib/hearing/parameters";
import { cutAtBeats } from "@/lib/hearing/stretches";
import { type TappedLevel, tappedLevels } from "@/lib/hearing/tappedLevels";
import { hearTuning } from "@/lib/hearing/tuning";
import { beatF } from "../metrics/beatF";
import type { ReferenceBeat } from "../Subject";

/** What there was to choose from in a record or a part of one, and how right each choice would have been. */
export interface BeatSample {
  /** Of the whole record. */
  id: string;
  /** Whether this is a whole record, not a part of one. */
  whole: boolean;
  levels: TappedLevel[];
  /** F-measure of the beats of each level. */
  rightness: number[];
  /** How the bars stand on the beats that are chosen at present. */
  bars: BarsStanding;
  /** F-measure of the beats chosen at present, and of their downbeats. */
  chosen: { beats: number; downbeats: number };
}

/** Beats this far outside of the marked ones are not asked for. */
const MARGIN_SEC = 0.1;
const PARTS = 3;

/** The record and its thirds. */
export function beatSamples(
  id: string,
  samples: Float32Array,
  truth: readonly ReferenceBeat[],
  ear: LearnedEar | null,
): BeatSample[] {
  const heard = [sampleOf(id, true, samples, truth, ear)];
  const length = Math.floor(samples.length / PARTS);
  for (let part = 0; part < PARTS; part++) {
    const startSec = (part * length) / HEARING_RATE_HZ;
    const endSec = ((part + 1) * length) / HEARING_RATE_HZ;
    const beats = truth
      .filter(({ timeSec }) => timeSec >= startSec && timeSec < endSec - MARGIN_SEC)
      .map(({ timeSec, inBar }) => ({ timeSec: timeSec - startSec, inBar }));
    heard.push(sampleOf(id, false, samples.subarray(part * length, (part + 1) * length), beats, ear));
  }
  return heard;
}

function sampleOf(
  id: string,
  whole: boolean,
  samples: Float32Array,
  truth: readonly ReferenceBeat[],
  ear: LearnedEar | null,
): BeatSample {
  const signal = Signal.of(samples, HEARING_RATE_HZ);
  const durationSec = samples.length / HEARING_RATE_HZ;
  const learned = ear?.listen(signal) ?? null;
  const onsets = hearOnsets(signal);
  const spectra = hearPitchSpectra(signal, hearTuning(signal).cents);
  const curves = learned && beatCurves(learned, onsets.frameRateHz, onsets.all.length);
  const evidence = beatEvidence(onsets, spectra, curves);
  const levels = tappedLevels(evidence);
  const { timesSec, division } = chooseBeats(evidence, durationSec);
  const { edgesSec } = cutAtBeats(timesSec, null, durationSec, division);
  const chroma = stretchChroma(spectra, edgesSec);
  const harmony = hearHarmony({
    beatsSec: timesSec,
    division,
    beatEvidence: evidence,
    chroma,
    learned,
    durationSec,
  });
  const { inBar, standing } = harmony.bars;
  const beats = truth.map(({ timeSec }) => timeSec);
  const downbeats = truth.filter((beat) => beat.inBar === 1).map(({ timeSec }) => timeSec);
  const asked = (times: readonly number[]): number[] =>
    times.filter((time) => time >= beats[0]! - MARGIN_SEC && time <= beats.at(-1)! + MARGIN_SEC);
  const onAxis = (times: readonly number[]): number[] => times.map((time) => time - ONSETS.delaySec);
  return {
    id,
    whole,
    levels,
    rightness: levels.map((level) => beatF(beats, asked(onAxis(level.timesSec)))),
    bars: standing,
    chosen: {
      beats: beatF(beats, asked(timesSec)),
      downbeats: beatF(downbeats, asked(timesSec.filter((_, i) => inBar[i] === 1))),
    },
  };
}
