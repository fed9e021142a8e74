import { SHORTEST_SEC } from "../records/guards";
import type { HomeRecord, RecordBase } from "../records/records";
import { compareWhole } from "./rank";

/**
 * Homes in order of time (rule D12). Of those that begin within 20 ms of each other the best ranked is shown:
 * ink first, then the latest edit, then the higher id.
 */
export function readHomes(records: readonly HomeRecord[]): HomeRecord[] {
  const shown: HomeRecord[] = [];
  for (const home of [...records].sort(compareWhole)) {
    if (shown.every((each) => Math.abs(each.startSec - home.startSec) >= SHORTEST_SEC)) shown.push(home);
  }
  return shown.sort((a, b) => a.startSec - b.startSec);
}

/** The one record that holds for the whole song (rule D13), for tuning and grid. */
export function readOne<R extends RecordBase>(records: readonly R[]): R | null {
  return [...records].sort(compareWhole)[0] ?? null;
}
