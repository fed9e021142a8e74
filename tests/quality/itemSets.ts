import { existsSync } from "node:fs";
import path from "node:path";
import { readItemSet } from "./items";
import { ownSet } from "./own/ownSet";
import type { SubjectSet } from "./Subject";

const ROOT = path.resolve(import.meta.dirname, "../..");

export interface FoundSets {
  /** Where the recordings come from, in words. */
  origin: string;
  /** Annotated recordings of the evaluation folder: A, B; none where there is no such folder. */
  evaluation: SubjectSet[];
  /** The repository's own songs. */
  own: SubjectSet;
}

/**
 * The annotated records at hand: those of the folder that LIFTBOOK_EVAL names, else of `../shared/eval` beside
 * this repository, and the repository's own songs. In a folder, set A is `manifest.json` and set B
 * `band/manifest.json`.
 * @throws where LIFTBOOK_EVAL names a folder without a manifest
 */
export function findItemSets(): FoundSets {
  const named = process.env.LIFTBOOK_EVAL;
  const folder = path.resolve(named || path.join(ROOT, "../shared/eval"));
  const manifests = [
    ["A", path.join(folder, "manifest.json")],
    ["B", path.join(folder, "band/manifest.json")],
  ] as const;
  const evaluation = manifests
    .filter(([, file]) => existsSync(file))
    .map(([name, file]) => readItemSet(name, file));
  if (named && evaluation.length === 0)
    throw new Error(`LIFTBOOK_EVAL names ${folder}, where there is no manifest.json`);
  const own = ownSet();
  const origin =
    evaluation.length > 0
      ? `the evaluation folder (${evaluation.map(({ name }) => name).join(", ")})`
      : `the repository's own ${own.subjects.length} short records, since no evaluation folder is there`;
  return { origin, evaluation, own };
}
