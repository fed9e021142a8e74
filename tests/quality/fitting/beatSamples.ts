import { Signal } from "@/lib/dsp/Signal";
import type { BarsStanding } from "@/lib/hearing/gridCertainty";
import { hearHarmony } from "@/lib/hearing/harmony";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { HEARING_RATE_HZ, ONSETS } from "@/lib/hearing/parameters";
import { type TappedLevel, tappedLevels } from "@/lib/hearing/tappedLevels";
import { beatF } from "../metrics/beatF";
import type { ReferenceBeat } from "../Subject";
import { harmonyEvidenceOf } from "./harmonyEvidenceOf";

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
  const durationSec = samples.length / HEARING_RATE_HZ;
  const evidence = harmonyEvidenceOf({ signal: Signal.of(samples, HEARING_RATE_HZ), durationSec }, ear);
  const levels = tappedLevels(evidence.beatEvidence);
  const { inBar, standing } = hearHarmony(evidence).bars;
  const { beatsSec } = evidence;
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
      beats: beatF(beats, asked(beatsSec)),
      downbeats: beatF(downbeats, asked(beatsSec.filter((_, i) => inBar[i] === 1))),
    },
  };
}
