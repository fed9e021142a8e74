import type { Seconds } from "@/lib/units/quantities";
import { SHORTEST_SEC } from "../records/guards";
import type { RecordBase } from "../records/records";
import { compareRank } from "./rank";
import type { StretchPlace } from "./SongSnapshot";

/** Edges that differ by rounding only are one edge. */
const ROUNDING_SEC = 1e-9;

/**
 * Resolves overlaps by one fixed rule (D11): at every instant the best ranked record is shown. What is left of
 * a record may be several stretches; those shorter than 20 ms vanish.
 * @returns in order of time, never overlapping; the same for any order of the records
 */
export function readStretches<R extends RecordBase & { startSec: Seconds; endSec: Seconds }>(
  records: readonly R[],
): (R & StretchPlace)[] {
  const byStart = [...records].sort((a, b) => a.startSec - b.startSec);
  const edges = [...new Set(byStart.flatMap((each) => [each.startSec, each.endSec]))].sort((a, b) => a - b);
  const stretches: { record: R; startSec: Seconds; endSec: Seconds }[] = [];
  let sounding: R[] = [];
  let next = 0;
  for (let index = 0; index + 1 < edges.length; index++) {
    const startSec = edges[index]!;
    const endSec = edges[index + 1]!;
    if (sounding.some((each) => each.endSec <= startSec))
      sounding = sounding.filter((each) => each.endSec > startSec);
    for (let each = byStart[next]; each !== undefined && each.startSec <= startSec; each = byStart[++next]) {
      sounding.push(each);
    }
    let record = sounding[0];
    if (record === undefined) continue;
    for (const each of sounding) if (each !== record && compareRank(each, record) < 0) record = each;
    const last = stretches.at(-1);
    if (last !== undefined && last.record === record && last.endSec === startSec) last.endSec = endSec;
    else stretches.push({ record, startSec, endSec });
  }

  const count = new Map<string, number>();
  return stretches
    .filter(({ startSec, endSec }) => endSec - startSec >= SHORTEST_SEC - ROUNDING_SEC)
    .map(({ record, startSec, endSec }) => {
      const stretch = count.get(record.id) ?? 0;
      count.set(record.id, stretch + 1);
      const { startSec: writtenStartSec, endSec: writtenEndSec } = record;
      return { ...record, startSec, endSec, writtenStartSec, writtenEndSec, stretch };
    });
}
