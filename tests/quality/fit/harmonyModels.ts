import { chordEvidence } from "@/lib/fit/chordEvidence";
import type { FitOdds } from "@/lib/fit/FitOdds";
import { keyEvidence } from "@/lib/fit/keyEvidence";
import { fitLogistic, type Observed } from "../fitting/logistic";
import type { HarmonyExample } from "./harmonyExamples";

/** What is right in a stretch, and each near miss of it, by their evidence; the right one weighs as much as the others together. */
export function judgedHarmony(example: HarmonyExample): Observed[] {
  const { spectra, kind } = example;
  const [right, misses] =
    kind === "chord"
      ? [chordEvidence(spectra, example.right), example.misses.map((miss) => chordEvidence(spectra, miss))]
      : [keyEvidence(spectra, example.right), example.misses.map((miss) => keyEvidence(spectra, miss))];
  return [
    { evidence: right, share: 1, weight: 1 },
    ...misses.map((evidence) => ({ evidence, share: 0, weight: 1 / misses.length })),
  ];
}

export function fitHarmony(examples: readonly HarmonyExample[]): Pick<FitOdds, "chord" | "key"> {
  const model = (kind: HarmonyExample["kind"]) => {
    const cases = examples.filter((example) => example.kind === kind).flatMap(judgedHarmony);
    return fitLogistic(Object.keys(cases[0]!.evidence), cases);
  };
  return { chord: model("chord"), key: model("key") };
}
