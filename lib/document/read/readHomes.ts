import { SHORTEST_SEC } from "../records/guards";
import type { HomeRecord, RecordBase } from "../records/records";
import { compareRank } from "./rank";

/**
 * Homes in order of time (rule D12). Of those that begin within 20 ms of each other the best ranked is shown:
 * ink first, then the latest edit, then the higher id.
 */
export function readHomes(records: readonly HomeRecord[]): HomeRecord[] {
  const shown: HomeRecord[] = [];
  for (const home of bestFirst(records)) {
    if (shown.every((each) => Math.abs(each.startSec - home.startSec) >= SHORTEST_SEC)) shown.push(home);
  }
  return shown.sort((a, b) => a.startSec - b.startSec);
}

/** The one record that holds for the whole song (rule D13), for tuning and grid. */
export function readOne<R extends RecordBase>(records: readonly R[]): R | null {
  return bestFirst(records)[0] ?? null;
}

/** Ink, then the latest edit, then the higher id; where the record starts does not count. */
function bestFirst<R extends RecordBase>(records: readonly R[]): R[] {
  const rank = ({ id, mark, editedAtMs }: RecordBase) => ({ id, mark, editedAtMs });
  return [...records].sort((a, b) =>
    compareRank({ ...a, ...rank(a), startSec: 0 }, { ...b, ...rank(b), startSec: 0 }),
  );
}
