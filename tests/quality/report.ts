/**
 * `npm run -s quality`: how well the ear hears, over annotated recordings.
 *
 *   --set A|B      one set only
 *   --items        one line for each item as well
 *   --json FILE    everything into a file too
 */
import { writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { hearingVersion } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { type Evaluation, evaluate } from "./evaluate";
import { findItemSets } from "./itemSets";
import { itemLines, reportLines } from "./reportLines";

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      set: { type: "string" },
      items: { type: "boolean", default: false },
      json: { type: "string" },
    },
  });
  const { origin, sets } = findItemSets();
  const wanted = sets.filter(({ name }) => values.set === undefined || name === values.set);
  const ear = process.env.LIFTBOOK_QUALITY_EAR === "off" ? null : await readLearnedEar();
  const version = hearingVersion(ear);
  console.log(`Heard by ${version} over ${origin}.`);
  if (wanted.length === 0) {
    console.error(`There is no set ${values.set}; there are: ${sets.map(({ name }) => name).join(", ")}.`);
    return 2;
  }
  const evaluations: Evaluation[] = [];
  for (const set of wanted) {
    const evaluation = await evaluate(set, (item, _, doneCount) => {
      process.stderr.write(`${set.name} ${doneCount} of ${set.items.length}: ${item.id}\n`);
    });
    evaluations.push(evaluation);
    for (const line of reportLines(evaluation)) console.log(line);
    if (values.items) for (const line of itemLines(set.name, evaluation.scores)) console.log(line);
  }
  if (values.json)
    await writeFile(values.json, `${JSON.stringify({ ear: version, evaluations }, null, 1)}\n`);
  return evaluations.some(({ failures }) => failures.length > 0) ? 1 : 0;
}

try {
  process.exitCode = await main();
} catch (fault) {
  console.error(fault instanceof Error ? fault.message : fault);
  process.exitCode = 2;
}
