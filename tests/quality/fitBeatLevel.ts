/**
 * Fits the weights that choose the level of beats, and how sure beats and bars are, to the annotated recordings of the
 * evaluation folder: `LIFTBOOK_EVAL=folder npx tsx tests/quality/fitBeatLevel.ts`, with `signal` after it for the
 * weights of the signal alone. Prints what to round and put into lib/hearing/beatParameters.ts, with what each is worth on
 * recordings left out of the fit. To be run again whenever the learned ear has new weights; some minutes.
 */

import { BARS_CERTAINTY, LEARNED_LEVEL_WEIGHTS, LEVEL_WEIGHTS } from "@/lib/hearing/beatParameters";
import { chainLogOdds } from "@/lib/hearing/gridCertainty";
import type { LevelFeature } from "@/lib/hearing/levelFeatures";
import { certainty } from "@/lib/hearing/notes/LogisticModel";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import type { BeatSample } from "./fitting/beatSamples";
import { type Choice, chosen, fitConditionalLogit, scoresOf } from "./fitting/conditionalLogit";
import { foldsByRecord } from "./fitting/foldsByRecord";
import { gatherBeatSamples } from "./fitting/gatherBeatSamples";
import { fitLogistic, logLoss, type Observed } from "./fitting/logistic";
import { mean } from "./summary";

const RIDGE = 0.1;
/** Levels this near to the best one are as right; records where none is better than this teach nothing. */
const AS_RIGHT = 0.03;
const BEST_AT_LEAST = 0.8;
/** Bars are judged where the beats are right. */
const BEATS_RIGHT = 0.9;

type Case = Observed & { id: string };

const bySignal = process.argv.includes("signal");
const features = Object.keys(bySignal ? LEVEL_WEIGHTS : LEARNED_LEVEL_WEIGHTS) as LevelFeature[];

function choiceOf({ levels, rightness }: BeatSample): Choice {
  const best = Math.max(...rightness);
  return {
    alternatives: levels.map((level) => features.map((feature) => level.features[feature])),
    right: rightness.map((right) => right > best - AS_RIGHT),
  };
}

function fitLevels(samples: readonly BeatSample[]): number[] {
  const teaching = samples.filter(({ rightness }) => Math.max(...rightness) > BEST_AT_LEAST);
  return fitConditionalLogit(teaching.map(choiceOf), RIDGE);
}

/** How sure the choice of a level is, and how right it was, with weights fitted to other records. */
function certaintyOf(sample: BeatSample, weights: readonly number[]): Case {
  const { alternatives } = choiceOf(sample);
  const scores = scoresOf(alternatives, weights);
  const best = chosen(alternatives, weights);
  const odds = chainLogOdds(sample.levels, scores, sample.levels[best]!);
  return { id: sample.id, evidence: { odds }, share: sample.rightness[best]!, weight: 1 };
}

function reportCertainty(what: string, cases: readonly Case[]): void {
  const names = Object.keys(cases[0]!.evidence);
  const said: number[] = [];
  const judged: Case[] = [];
  for (const { fitted, leftOut } of foldsByRecord(cases)) {
    const model = fitLogistic(names, fitted);
    said.push(...leftOut.map(({ evidence }) => certainty(model, evidence)));
    judged.push(...leftOut);
  }
  const even = judged.map(() => mean(judged.map(({ share }) => share)));
  console.log(`${what}: ${JSON.stringify(fitLogistic(names, cases))}`);
  console.log(
    `  left out: log loss ${logLoss(said, judged).toFixed(3)}, of their mean ${logLoss(even, judged).toFixed(3)} (${cases.length} cases)`,
  );
}

const ear = bySignal ? null : await readLearnedEar();
const samples = (await gatherBeatSamples(ear, (id) => console.error(id))).filter(
  ({ levels }) => levels.length > 0,
);
const whole = samples.filter((sample) => sample.whole);
const right = (sample: BeatSample, weights: readonly number[]): number =>
  sample.rightness[chosen(choiceOf(sample).alternatives, weights)]!;
const all = fitLevels(whole);
console.log(`Level: ${features.map((feature, j) => `${feature} ${all[j]!.toFixed(2)}`).join(", ")}`);
const folds = foldsByRecord(samples).map(({ fitted, leftOut }) => ({
  weights: fitLevels(fitted.filter((sample) => sample.whole)),
  leftOut,
}));
const leftOutRight = folds.flatMap(({ weights, leftOut }) =>
  leftOut.filter((sample) => sample.whole).map((sample) => right(sample, weights)),
);
console.log(
  `  beat F ${mean(whole.map((sample) => right(sample, all))).toFixed(4)}, left out ${mean(leftOutRight).toFixed(4)}, at best ${mean(whole.map(({ rightness }) => Math.max(...rightness))).toFixed(4)} (${whole.length} records)`,
);
reportCertainty(
  "Beats",
  folds.flatMap(({ weights, leftOut }) => leftOut.map((sample) => certaintyOf(sample, weights))),
);
reportCertainty(
  "Bars",
  samples
    .filter((sample) => sample.chosen.beats > BEATS_RIGHT)
    .map(({ id, bars, chosen: { downbeats } }) => ({
      id,
      evidence: { margin: Math.min(BARS_CERTAINTY.mostMargin, bars.margin), slips: bars.slips },
      share: downbeats,
      weight: 1,
    })),
);
