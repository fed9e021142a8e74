/**
 * `npx tsx tests/quality/fit/fitFitOdds.ts`: fits the weights by which guesses are held against the record, anew, over
 * the annotated records at hand, and writes them: `lib/fit/fittedOdds.ts`, fitted on all of them, and
 * `leftOutOdds.json` beside this file, eleven sets of them, each fitted without an eleventh of the records. The quality
 * report judges every record by the set that has not seen it. `--keep-sounds` keeps the models of whether a note sounds,
 * which take longest, where the same records are at hand.
 */
import { writeFile } from "node:fs/promises";
import path from "node:path";
import { FitEar } from "@/lib/fit/FitEar";
import type { FitOdds } from "@/lib/fit/FitOdds";
import { FIT_ODDS } from "@/lib/fit/fittedOdds";
import { PassageFit } from "@/lib/fit/PassageFit";
import { hearTuning } from "@/lib/hearing/tuning";
import { foldsByRecord } from "../fitting/foldsByRecord";
import { findItemSets } from "../itemSets";
import { takeSound } from "../takeSound";
import { chosenEvents } from "./fitEvents";
import { type FitExample, fitExample } from "./fitExamples";
import { fitBelongs, fitSet, fitSounds, type NoteModels } from "./fitModels";
import { type HarmonyExample, harmonyExamples } from "./harmonyExamples";
import { fitHarmony } from "./harmonyModels";
import { judgeHarmony, judgeNotes } from "./judgeFit";
import { type LeftOutOdds, oddsWithout } from "./oddsOf";
import { verdictLines } from "./verdictLines";

const EVENTS_A_RECORD = 36;

const examples: FitExample[] = [];
const harmony: HarmonyExample[] = [];
for (const { subjects } of findItemSets().evaluation) {
  for (const { id, source, truth } of subjects) {
    if (source.kind !== "file") continue;
    const sound = await takeSound(source.path);
    const ear = new FitEar(hearTuning(sound.signal).cents);
    for (const event of chosenEvents(truth, EVENTS_A_RECORD))
      examples.push(fitExample(id, ear, sound, event));
    harmony.push(...harmonyExamples(id, ear, sound, truth));
    process.stderr.write(`${id}: ${examples.length} events\n`);
  }
}

const nothing = { bias: 0, weights: {} };
const unfitted: Omit<FitOdds, "sounds"> = { belongs: nothing, set: nothing, chord: nothing, key: nothing };

/** Notes weighed by models that have not learned from their records. */
const blind = new Map<FitExample, PassageFit>();
const folds = foldsByRecord(examples);
const keepsSounds = process.argv.includes("--keep-sounds");
const soundsOf = folds.map(({ fitted, leftOut }) =>
  keepsSounds ? oddsWithout(leftOut[0]!.id).sounds : fitSounds(fitted),
);
process.stderr.write("whether notes sound: fitted\n");
folds.forEach(({ leftOut }, fold) => {
  for (const example of leftOut)
    blind.set(
      example,
      new PassageFit(
        example.passage,
        { ...unfitted, sounds: soundsOf[fold]! },
        new Map(),
        new Map(example.evidence),
      ),
    );
});

function noteModels(of: readonly FitExample[], sounds: FitOdds["sounds"]): NoteModels {
  const belongs = fitBelongs(of, (example) => blind.get(example)!);
  // Of their own notes, what is known of each is kept.
  const set = fitSet(of, (example) => blind.get(example)!.with({ ...unfitted, sounds, belongs }));
  return { sounds, belongs, set };
}

const leftOutOdds: LeftOutOdds[] = folds.map(({ fitted, leftOut }, fold) => {
  const ids = [...new Set(leftOut.map(({ id }) => id))];
  const heldOut = new Set(ids);
  return {
    ids,
    odds: {
      ...noteModels(fitted, soundsOf[fold]!),
      ...fitHarmony(harmony.filter(({ id }) => !heldOut.has(id))),
    },
  };
});
process.stderr.write("left-out models: fitted\n");
const odds: FitOdds = {
  ...noteModels(examples, keepsSounds ? FIT_ODDS.sounds : fitSounds(examples)),
  ...fitHarmony(harmony),
};
const HERE = import.meta.dirname;
await writeFile(path.join(HERE, "leftOutOdds.json"), `${JSON.stringify(leftOutOdds)}\n`);
await writeFile(
  path.join(HERE, "../../../lib/fit/fittedOdds.ts"),
  `import type { FitOdds } from "./FitOdds";

/**
 * Fitted by \`tests/quality/fit/fitFitOdds.ts\` over annotated recordings, each with the same weight. They belong to the
 * numbers in parameters.ts and are fitted anew when those change.
 */
export const FIT_ODDS: FitOdds = ${JSON.stringify(odds, null, 2)};
`,
);

/** What the left-out models say of the records that they have not seen. */
const verdicts = leftOutOdds.flatMap(({ ids, odds: blindOdds }) => [
  ...examples
    .filter(({ id }) => ids.includes(id))
    .map((example) => ({ id: example.id, ...judgeNotes(example.passage, blindOdds, example.event) })),
  ...harmony
    .filter(({ id }) => ids.includes(id))
    .map((one) => ({ id: one.id, ...judgeHarmony(one, blindOdds) })),
]);
for (const line of verdictLines(verdicts)) console.log(line);
