/**
 * `npx tsx tests/quality/notes/fitNoteOdds.ts`: fits the weights by which notes are weighed, anew, over the annotated
 * records at hand, each with the same weight in all; prints them, and the mean log loss of each model on records left
 * out one at a time. Copy them to `lib/hearing/notes/noteOdds.ts` when the network's weights change.
 */
import { certainty, type LogisticModel } from "@/lib/hearing/notes/LogisticModel";
import { NOTE_ODDS } from "@/lib/hearing/notes/noteOdds";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { fitLogistic, logLoss, type Observed } from "../fitting/logistic";
import { findItemSets } from "../itemSets";
import { takeSound } from "../takeSound";
import { type Labelled, type NoteExamples, noteExamples } from "./noteExamples";

/** Weight of all examples of one record together. */
const RECORD_WEIGHT = 100;

type ModelName = keyof typeof NOTE_ODDS;

function labelled(rows: readonly Labelled[], holds: (row: Labelled) => boolean): Observed[] {
  const weight = RECORD_WEIGHT / rows.length;
  return rows.map((row) => ({ evidence: row.evidence, share: Number(holds(row)), weight }));
}

/** What a record teaches each model: nothing of the steel's picks where no steel plays, nor of unisons where one plays alone. */
const TAUGHT: Record<ModelName, (record: NoteExamples) => Observed[]> = {
  presence: ({ presence, players }) => [{ evidence: presence, share: Number(players !== "band"), weight: 1 }],
  pick: ({ picks }) => labelled(picks, ({ holds }) => holds),
  steelPick: ({ picks, players }) => (players === "band" ? [] : labelled(picks, ({ ofSteel }) => ofSteel)),
  unison: ({ picks, players }) =>
    players === "steel and band"
      ? labelled(
          picks.filter(({ ofSteel }) => ofSteel),
          ({ ofBand }) => ofBand,
        )
      : [],
  arrival: ({ arrivals }) => labelled(arrivals, ({ holds }) => holds),
};

function fitModel(name: ModelName, records: readonly NoteExamples[]): LogisticModel<string> {
  return fitLogistic(Object.keys(NOTE_ODDS[name].weights), records.flatMap(TAUGHT[name]));
}

function lossLeftOut(name: ModelName, records: readonly NoteExamples[]): number {
  const said: number[] = [];
  for (const record of records) {
    const others = records.filter((other) => other !== record);
    const model = fitModel(name, others);
    said.push(...TAUGHT[name](record).map(({ evidence }) => certainty(model, evidence)));
  }
  return logLoss(said, records.flatMap(TAUGHT[name]));
}

const { notesEar: ear } = await readLearnedEars();
if (!ear) throw new Error("No weights of the learned ear are installed, so there are no note maps to weigh.");
const records: NoteExamples[] = [];
for (const { subjects } of findItemSets().evaluation) {
  for (const { id, source, truth } of subjects) {
    if (!truth.passage || source.kind !== "file") continue;
    records.push(noteExamples(id, await takeSound(source.path), ear, truth.passage));
    process.stderr.write(`${id}\n`);
  }
}
for (const name of Object.keys(NOTE_ODDS) as ModelName[]) {
  console.log(
    name,
    JSON.stringify(fitModel(name, records)),
    `log loss left out ${lossLeftOut(name, records).toFixed(4)}`,
  );
}
