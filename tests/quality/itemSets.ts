import { existsSync } from "node:fs";
import path from "node:path";
import { type ItemSet, readItemSet } from "./items";

const ROOT = path.resolve(import.meta.dirname, "../..");
const OWN_FOLDER = path.join(ROOT, "tests/fixtures/quality");

export interface FoundSets {
  /** Where the recordings come from, in words. */
  origin: string;
  sets: ItemSet[];
}

/**
 * The annotated recordings at hand: those of the folder that LIFTBOOK_EVAL names, else of `../shared/eval` beside
 * this repository, else the few of the repository's own. In a folder, set A is `manifest.json` and set B
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
  const sets = manifests
    .filter(([, file]) => existsSync(file))
    .map(([name, file]) => readItemSet(name, file));
  if (sets.length > 0)
    return { origin: `the evaluation folder (${sets.map(({ name }) => name).join(", ")})`, sets };
  if (named) throw new Error(`LIFTBOOK_EVAL names ${folder}, where there is no manifest.json`);
  const own = readItemSet("own", path.join(OWN_FOLDER, "manifest.json"));
  return {
    origin: `the repository's own ${own.items.length} short recordings, since no evaluation folder is there`,
    sets: [own],
  };
}
