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

function oddsLeftOut(id: string): FitOdds | undefined {
  return leftOut.find(({ ids }) => ids.includes(id))?.odds;
}

/** Whether the fitting had a record, so that there are weights that were fitted without it. */
export function isLeftOut(id: string): boolean {
  return oddsLeftOut(id) !== undefined;
}

/**
 * Weights that were fitted without a record, told by its id. A record that is not known here gets the weights that ship:
 * no fitting had it, so that those have not seen it either. A record of the fitting that has been given another id since
 * would be taken for such a one and judged by weights that know it; the report says how many records are judged so.
 */
export function oddsWithout(id: string): FitOdds {
  return oddsLeftOut(id) ?? FIT_ODDS;
}
