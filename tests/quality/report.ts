/**
 * `npm run -s quality`: how well the ear hears, over annotated records: a table by group, the worst records with the
 * reason, and how far its certainties can be relied upon.
 *
 *   --set A|B|own  one set only
 *   --items        one line for each record as well
 *   --json FILE    everything into a file too
 *   --dump FOLDER  what was heard of each record into a file `<id>.json` of its own
 */
import { writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { hearingVersion } from "@/lib/hearing/hear";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { dumpPredictions } from "./dump";
import { type Evaluation, evaluate } from "./evaluate";
import { findItemSets } from "./itemSets";
import { itemLines, reportLines } from "./reportLines";

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      set: { type: "string" },
      items: { type: "boolean", default: false },
      json: { type: "string" },
      dump: { type: "string" },
    },
  });
  const { origin, evaluation, own } = findItemSets();
  const usual = evaluation.length > 0 ? evaluation : [own];
  const named = [...evaluation, own].filter(({ name }) => name === values.set);
  const wanted = values.set === undefined ? usual : named;
  const ears = process.env.LIFTBOOK_QUALITY_EAR === "off" ? {} : await readLearnedEars();
  const version = hearingVersion(ears);
  if (wanted.length === 0) {
    const names = [...evaluation, own].map(({ name }) => name);
    console.error(`There is no set ${values.set}; there are: ${names.join(", ")}.`);
    return 2;
  }
  console.log(`Heard by ${version} over ${values.set === "own" ? "the repository's own songs" : origin}.`);
  const evaluations: Evaluation[] = [];
  for (const set of wanted) {
    const result = await evaluate(set, ({ id }, doneCount) => {
      process.stderr.write(`${set.name} ${doneCount} of ${set.subjects.length}: ${id}\n`);
    });
    evaluations.push(result);
    for (const line of reportLines(result)) console.log(line);
    if (values.items) for (const line of itemLines(result)) console.log(line);
    if (values.dump) await dumpPredictions(result.cases, values.dump);
  }
  if (values.json) {
    const told = evaluations.map(({ cases, ...rest }) => ({
      ...rest,
      scores: cases.map(({ score }) => score),
    }));
    await writeFile(values.json, `${JSON.stringify({ ear: version, evaluations: told }, null, 1)}\n`);
  }
  return evaluations.some(({ failures }) => failures.length > 0) ? 1 : 0;
}

try {
  process.exitCode = await main();
} catch (fault) {
  console.error(fault instanceof Error ? fault.message : fault);
  process.exitCode = 2;
}
