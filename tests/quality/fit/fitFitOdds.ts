/**
 * `npx tsx tests/quality/fit/fitFitOdds.ts`: fits the weights by which guesses are held against the record, anew, over
 * the annotated records at hand, and writes them: `lib/fit/fittedOdds.ts`, fitted on all of them, and
 * `leftOutOdds.json` beside this file, eleven sets of them, each fitted without an eleventh of the records. The quality
 * report judges every record by the set that was fitted without it. One thing seeps through: what belongs together and
 * what is a set is learned from notes weighed by the first models of other parts, which had that eleventh among theirs. `--harmony` fits chords and keys alone and keeps the weights
 * of notes, which take longest. Prints what the left-out models say of the records that they have not seen.
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
const isHarmonyAlone = process.argv.includes("--harmony");

const examples: FitExample[] = [];
const harmony: HarmonyExample[] = [];
/** Those with notes to fit on, and the others. */
const withNotes: { id: string }[] = [];
const withoutNotes: { id: string }[] = [];
for (const { subjects } of findItemSets().evaluation) {
  for (const { id, source, truth } of subjects) {
    if (source.kind !== "file") continue;
    const sound = await takeSound(source.path);
    const ear = new FitEar(hearTuning(sound.signal).cents);
    const events = chosenEvents(truth, EVENTS_A_RECORD);
    (events.length > 0 ? withNotes : withoutNotes).push({ id });
    if (!isHarmonyAlone) for (const event of events) examples.push(fitExample(id, ear, sound, event));
    harmony.push(...harmonyExamples(id, ear, sound, truth));
    process.stderr.write(`${id}: ${events.length} events\n`);
  }
}

/** The records of each part, those without notes dealt out over all of them. */
const parts = foldsByRecord(withNotes).map(({ leftOut }, fold, all) => [
  ...leftOut.map(({ id }) => id),
  ...withoutNotes.flatMap(({ id }, at) => (at % all.length === fold ? [id] : [])),
]);
const without = <T extends { id: string }>(list: readonly T[], ids: readonly string[]) =>
  list.filter(({ id }) => !ids.includes(id));

const nothing = { bias: 0, weights: {} };
const unfitted: Omit<FitOdds, "sounds"> = { belongs: nothing, set: nothing, chord: nothing, key: nothing };

/** The models of notes of each part, and those of all records. */
function noteModels(): { ofParts: NoteModels[]; ofAll: NoteModels } {
  if (isHarmonyAlone) return { ofParts: parts.map((ids) => oddsWithout(ids[0]!)), ofAll: FIT_ODDS };
  const soundsOf = parts.map((ids) => fitSounds(without(examples, ids)));
  process.stderr.write("whether notes sound: fitted\n");
  /** Notes weighed by models that have not learned from their records. */
  const blind = new Map<FitExample, PassageFit>();
  for (const example of examples) {
    const sounds = soundsOf[parts.findIndex((ids) => ids.includes(example.id))]!;
    const { passage, evidence } = example;
    blind.set(example, new PassageFit(passage, { ...unfitted, sounds }, new Map(), new Map(evidence)));
  }
  const models = (of: readonly FitExample[], sounds: FitOdds["sounds"]): NoteModels => {
    const belongs = fitBelongs(of, (example) => blind.get(example)!);
    const set = fitSet(of, (example) => blind.get(example)!.with({ ...unfitted, sounds, belongs }));
    return { sounds, belongs, set };
  };
  return {
    ofParts: parts.map((ids, part) => models(without(examples, ids), soundsOf[part]!)),
    ofAll: models(examples, fitSounds(examples)),
  };
}

const { ofParts, ofAll } = noteModels();
const picked = ({ sounds, belongs, set }: NoteModels): NoteModels => ({ sounds, belongs, set });
const leftOutOdds: LeftOutOdds[] = parts.map((ids, part) => ({
  ids,
  odds: { ...picked(ofParts[part]!), ...fitHarmony(without(harmony, ids)) },
}));
const odds: FitOdds = { ...picked(ofAll), ...fitHarmony(harmony) };
process.stderr.write("all models: fitted\n");
const HERE = import.meta.dirname;
await writeFile(path.join(HERE, "leftOutOdds.json"), `${JSON.stringify(leftOutOdds, null, 2)}\n`);
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

const verdicts = leftOutOdds.flatMap(({ ids, odds: blindOdds }) => [
  ...examples
    .filter(({ id }) => ids.includes(id))
    .map(({ passage, event }) => judgeNotes(passage, blindOdds, event)),
  ...harmony.filter(({ id }) => ids.includes(id)).map((one) => judgeHarmony(one, blindOdds)),
]);
for (const line of verdictLines(verdicts)) console.log(line);
