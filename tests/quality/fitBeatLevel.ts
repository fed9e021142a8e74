/**
 * Fits the weights that choose the level of beats, and how sure beats and bars are, to the annotated recordings of the
 * evaluation folder: `LIFTBOOK_EVAL=folder npx tsx tests/quality/fitBeatLevel.ts`, with `signal` after it for the
 * weights of the signal alone. Prints what to round and put into lib/hearing/beatParameters.ts, with what each is worth on
 * recordings left out of the fit. To be run again whenever the learned ear has new weights; some minutes.
 */

import { BARS_CERTAINTY } from "@/lib/hearing/beatParameters";
import { chainLogOdds } from "@/lib/hearing/gridCertainty";
import { type LevelFeature, SIGNAL_FEATURES } from "@/lib/hearing/levelFeatures";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import type { BeatSample } from "./fitting/beatSamples";
import { type Choice, chosen, fitConditionalLogit } from "./fitting/conditionalLogit";
import { foldsByRecord } from "./fitting/foldsByRecord";
import { gatherBeatSamples } from "./fitting/gatherBeatSamples";
import { fitLogistic, logLoss, type Observed, probability } from "./fitting/logistic";

const LEARNED: readonly LevelFeature[] = ["tempo", "harmonyCaught", "beat", "beatCaught", "downbeatCaught"];
const RIDGE = 0.1;
const CERTAINTY_RIDGE = 0.01;
/** Levels this near to the best one are as right; records where none is better than this teach nothing. */
const AS_RIGHT = 0.03;
const BEST_AT_LEAST = 0.8;
/** Bars are judged where the beats are right. */
const BEATS_RIGHT = 0.9;

type Case = Observed & { id: string };

const bySignal = process.argv.includes("signal");
const features: readonly LevelFeature[] = bySignal ? SIGNAL_FEATURES : LEARNED;

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

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function named(names: readonly string[], weights: readonly number[]): string {
  return names.map((name, j) => `${name} ${weights[j]!.toFixed(2)}`).join(", ");
}

/** How sure the choice of a level is, and how right it was, with weights fitted to other records. */
function certaintyOf(sample: BeatSample, weights: readonly number[]): Case {
  const { alternatives } = choiceOf(sample);
  const scores = alternatives.map((row) => row.reduce((sum, value, j) => sum + value * weights[j]!, 0));
  const best = chosen(alternatives, weights);
  const odds = chainLogOdds(sample.levels, scores, sample.levels[best]!);
  return { id: sample.id, features: [1, odds], share: sample.rightness[best]! };
}

function reportCertainty(what: string, names: readonly string[], cases: readonly Case[]): void {
  const said: number[] = [];
  const shares: number[] = [];
  for (const { fitted, leftOut } of foldsByRecord(cases)) {
    const weights = fitLogistic(fitted, CERTAINTY_RIDGE);
    said.push(...leftOut.map((observed) => probability(observed.features, weights)));
    shares.push(...leftOut.map(({ share }) => share));
  }
  const even = shares.map(() => mean(shares));
  console.log(`${what}: ${named(names, fitLogistic(cases, CERTAINTY_RIDGE))}`);
  console.log(
    `  left out: log loss ${logLoss(said, shares).toFixed(3)}, of their mean ${logLoss(even, shares).toFixed(3)} (${cases.length} cases)`,
  );
}

const ear = bySignal ? null : await readLearnedEar();
const samples = (await gatherBeatSamples(ear, (id) => console.error(id))).filter(
  ({ levels }) => levels.length > 0,
);
const whole = samples.filter((sample) => sample.whole);
console.log(`Level: ${named(features, fitLevels(whole))}`);
const right = (sample: BeatSample, weights: readonly number[]): number =>
  sample.rightness[chosen(choiceOf(sample).alternatives, weights)]!;
const all = fitLevels(whole);
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
  ["bias", "oddsWeight"],
  folds.flatMap(({ weights, leftOut }) => leftOut.map((sample) => certaintyOf(sample, weights))),
);
reportCertainty(
  "Bars",
  ["bias", "marginWeight", "slipWeight, negative"],
  samples
    .filter((sample) => sample.chosen.beats > BEATS_RIGHT)
    .map(({ id, bars, chosen: { downbeats } }) => ({
      id,
      features: [1, Math.min(BARS_CERTAINTY.mostMargin, bars.margin), bars.slips],
      share: downbeats,
    })),
);
