/**
 * Prints how well chords are heard as the two ears' opinions are weighed otherwise, to be looked at whenever the trained
 * weights change: `npx tsx tests/quality/weighChords.ts`, over the annotated records in LIFTBOOK_EVAL, else our own.
 * The weights in use are those of LEARNED_CHORDS in `lib/hearing/harmonyParameters.ts`.
 */
import { type HarmonyEvidence, hearHarmony } from "@/lib/hearing/harmony";
import { LEARNED_CHORDS } from "@/lib/hearing/harmonyParameters";
import { chordsOf, homesOf } from "@/lib/hearing/telling";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { harmonyEvidenceOf } from "./fitting/harmonyEvidenceOf";
import { findItemSets } from "./itemSets";
import type { ChordMetric } from "./metrics/chordComparison";
import { chordRecall } from "./metrics/chordRecall";
import { type ChordSpan, fitSpans } from "./metrics/chordSpans";
import { chordSegments, segmentation } from "./metrics/segmentation";
import { soundOf, takeSound } from "./takeSound";

const NETWORK_FACTORS = [0.5, 0.7, 1, 1.4, 2];
const SIGNAL_FACTORS = [0.5, 1, 2];
const SHOWN: readonly ChordMetric[] = ["majmin", "majmin_inv", "sevenths"];

function heard(evidence: HarmonyEvidence): ChordSpan[] {
  const harmony = hearHarmony(evidence);
  return chordsOf(harmony, homesOf(harmony.keys, harmony.stretches));
}

const ear = await readLearnedEar();
if (!ear) throw new Error("There are no trained weights to weigh.");
const { evaluation, own } = findItemSets();
for (const { name, subjects } of evaluation.length > 0 ? evaluation : [own]) {
  const records: { evidence: HarmonyEvidence; chords: ChordSpan[] }[] = [];
  for (const { source, truth } of subjects) {
    if (!truth.chords) continue;
    const evidence = harmonyEvidenceOf(await takeSound(soundOf(source)), ear);
    records.push({ evidence, chords: truth.chords });
  }
  for (const network of NETWORK_FACTORS) {
    for (const signal of SIGNAL_FACTORS) {
      const pool = {
        networkWeight: network * LEARNED_CHORDS.networkWeight,
        signalWeight: signal * LEARNED_CHORDS.signalWeight,
      };
      const sums = new Map<string, { right: number; scored: number }>();
      const add = (metric: string, right: number, scored: number): void => {
        const sum = sums.get(metric) ?? { right: 0, scored: 0 };
        sums.set(metric, { right: sum.right + right, scored: sum.scored + scored });
      };
      for (const { evidence, chords } of records) {
        const told = fitSpans(heard({ ...evidence, pool }), chords[0]!.startSec, chords.at(-1)!.endSec);
        const recall = chordRecall(chords, told);
        for (const metric of SHOWN) add(metric, recall[metric].rightSec, recall[metric].scoredSec);
        add("seg", segmentation(chordSegments(chords), chordSegments(told)).seg, 1);
      }
      const figures = [...sums].map(
        ([metric, { right, scored }]) => `${metric} ${(right / scored).toFixed(4)}`,
      );
      console.log(
        `${name} network ${pool.networkWeight.toFixed(2)} signal ${pool.signalWeight.toFixed(2)}: ${figures.join(", ")}`,
      );
    }
  }
}
