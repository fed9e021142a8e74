import type { FitOdds } from "@/lib/fit/FitOdds";
import { PassageFit } from "@/lib/fit/PassageFit";
import type { PassageSpectra } from "@/lib/fit/PassageSpectra";
import { weigh } from "@/lib/fit/weigh";
import { fromLogOdds } from "@/lib/hearing/logOdds";
import type { Judgement } from "../metrics/reliability";
import type { FitEvent } from "./fitEvents";
import { judgedSets } from "./fitModels";
import type { HarmonyExample } from "./harmonyExamples";
import { judgedHarmony } from "./harmonyModels";

/** What fit is told of. */
export type FitKind = "single notes" | "pairs" | "more notes" | "chords" | "keys";

/** How the right guess of one passage fared. */
export interface JudgedFit {
  kind: FitKind;
  /** Who plays it, where notes were asked for. */
  role: string | null;
  /** It reads higher than every near miss. */
  winsAll: boolean;
  /** Than every one that can be told by what sounds: not all of whose notes sound, or that lacks one. */
  winsHearable: boolean;
  /** Everything said with a number, and whether it was right. */
  judgements: Judgement[];
}

export function judgeNotes(passage: PassageSpectra, odds: FitOdds, event: FitEvent): JudgedFit {
  const fit = new PassageFit(passage, odds);
  const sets = judgedSets({ event }).map((set) => ({
    ...set,
    said: fromLogOdds(fit.logOdds(set.notesMidi)),
  }));
  const right = sets.find(({ miss }) => miss === null)!;
  const misses = sets.filter(({ miss }) => miss !== null);
  const beats = (kept: typeof misses) => kept.every(({ said }) => right.said > said);
  const count = event.notesMidi.length;
  return {
    kind: count === 1 ? "single notes" : count === 2 ? "pairs" : "more notes",
    role: event.role,
    winsAll: beats(misses),
    winsHearable: beats(misses.filter(({ miss, allSound }) => !allSound || miss?.change.kind === "without")),
    judgements: sets.map(({ said, miss, weight }) => ({ said, right: miss === null, weight })),
  };
}

export function judgeHarmony(example: HarmonyExample, odds: FitOdds): JudgedFit {
  const said = judgedHarmony(example).map(({ evidence, share, weight }) => ({
    said: fromLogOdds(weigh(odds[example.kind], evidence)),
    right: share === 1,
    weight,
  }));
  const right = said.find((one) => one.right)!;
  const wins = said.every((one) => one.right || right.said > one.said);
  return {
    kind: example.kind === "chord" ? "chords" : "keys",
    role: null,
    winsAll: wins,
    winsHearable: wins,
    judgements: said,
  };
}
