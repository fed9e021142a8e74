import { mkdir, writeFile } from "node:fs/promises";
import path from "node:path";
import type { Case } from "./Case";

/**
 * Writes what was heard of each record to a file `<id>.json` of its own, in the shape that other scorers of the field
 * read: times in seconds, labels in Harte syntax, the tempo as `tempoBpm`.
 */
export async function dumpPredictions(cases: readonly Case[], folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  for (const { subject, prediction, cpuSec } of cases) {
    if (!prediction) continue;
    const { hearing: _, tempo, ...told } = prediction;
    const dumped = { ...told, tempoBpm: tempo, ...(cpuSec === null ? {} : { elapsedSec: cpuSec }) };
    await writeFile(path.join(folder, `${subject.id}.json`), `${JSON.stringify(dumped)}\n`);
  }
}
