import { readFileSync } from "node:fs";
import path from "node:path";
import type { FitOdds } from "@/lib/fit/FitOdds";
import { FIT_ODDS } from "@/lib/fit/fittedOdds";

/** Weights that some records had no part in. */
export interface LeftOutOdds {
  ids: string[];
  odds: FitOdds;
}

const leftOut = JSON.parse(
  readFileSync(path.join(import.meta.dirname, "leftOutOdds.json"), "utf8"),
) as LeftOutOdds[];

/** Weights that were fitted without a record; those that ship, where none of the fitting had it. */
export function oddsWithout(id: string): FitOdds {
  return leftOut.find(({ ids }) => ids.includes(id))?.odds ?? FIT_ODDS;
}
