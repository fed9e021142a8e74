/**
 * `npx tsx tests/quality/notes/fitNoteOdds.ts`: fits the weights by which notes are weighed, anew, over the annotated
 * records at hand, each with the same weight in all; prints them, and the mean log loss of each model on records left
 * out one at a time. Copy them to `lib/hearing/notes/noteOdds.ts` when the network's weights change.
 */
import { certainty, type LogisticModel } from "@/lib/hearing/notes/LogisticModel";
import { NOTE_ODDS } from "@/lib/hearing/notes/noteOdds";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import { findItemSets } from "../itemSets";
import { type Example, fitLogistic } from "./fitLogistic";
import { type Labelled, type NoteExamples, noteExamples } from "./noteExamples";

const LIMITS = { maxDurationSec: 3_600, timeLimitSec: 600, ffmpeg: "ffmpeg" };
/** Weight of all examples of one record together. */
const RECORD_WEIGHT = 100;

type ModelName = keyof typeof NOTE_ODDS;

function labelled(rows: readonly Labelled[], holds: (row: Labelled) => boolean) {
  const weight = RECORD_WEIGHT / rows.length;
  return rows.map((row) => ({ evidence: row.evidence, holds: holds(row), weight }));
}

/** What a record teaches each model: nothing of the steel's picks where no steel plays. */
const TAUGHT: Record<ModelName, (record: NoteExamples) => ReturnType<typeof labelled>> = {
  presence: ({ presence, players }) => [{ evidence: presence, holds: players !== "band", weight: 1 }],
  pick: ({ picks }) => labelled(picks, ({ holds }) => holds),
  steelPick: ({ picks, players }) => (players === "band" ? [] : labelled(picks, ({ ofSteel }) => ofSteel)),
  arrival: ({ arrivals }) => labelled(arrivals, ({ holds }) => holds),
};

function fitModel(name: ModelName, records: readonly NoteExamples[]): LogisticModel<string> {
  const names = Object.keys(NOTE_ODDS[name].weights);
  const examples = records.flatMap(TAUGHT[name]).map(
    ({ evidence, holds, weight }): Example => ({
      values: names.map((key) => evidence[key]!),
      holds,
      weight,
    }),
  );
  return fitLogistic(names, examples);
}

function lossLeftOut(name: ModelName, records: readonly NoteExamples[]): number {
  let loss = 0;
  let weights = 0;
  for (const record of records) {
    const taught = TAUGHT[name](record);
    if (taught.length === 0) continue;
    const model = fitModel(
      name,
      records.filter((other) => other !== record),
    );
    for (const { evidence, holds, weight } of taught) {
      const p = certainty(model, evidence);
      loss -= weight * Math.log(holds ? p : 1 - p);
      weights += weight;
    }
  }
  return loss / weights;
}

const ear = await readLearnedEar();
if (!ear) throw new Error("No weights of the learned ear are installed, so there are no note maps to weigh.");
const records: NoteExamples[] = [];
for (const { subjects } of findItemSets().evaluation) {
  for (const { id, source, truth } of subjects) {
    if (!truth.passage || source.kind !== "file") continue;
    const receiver = new IntakeReceiver();
    await decodeHere(source.path, { ...LIMITS, receiver });
    records.push(noteExamples(id, receiver.finish().signal, ear, truth.passage));
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
