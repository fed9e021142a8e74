import { fretOn, settleFrets } from "@/lib/instrument/frets";
import type { Seconds } from "@/lib/units/quantities";
import { SHORTEST_SEC } from "../records/guards";
import type { PartRecord } from "../records/records";
import { compareMark, compareRank, compareText, compareWhole } from "./rank";
import type { ShownPart } from "./SongSnapshot";

/** Events of all parts, each part read by itself (rule D52); in order of time, then lowest string number. */
export function readPart(records: readonly PartRecord[]): ShownPart[] {
  const parts = new Set(records.map(({ part }) => part));
  if (parts.size < 2) return readOnePart(records);
  return [...parts].flatMap((id) => readOnePart(records.filter(({ part }) => part === id))).sort(inOrder);
}

/**
 * Lets one event sound on a string at a time, by one fixed rule (D14). On each string, in order of time:
 * of events that begin within 20 ms the best ranked keeps the string; pencil that begins while ink sounds loses
 * it; otherwise the later event ends the earlier one, on all of its strings. An event left without a string is
 * not shown.
 * @returns in order of time, then lowest string number; the same for any order of the records
 */
function readOnePart(records: readonly PartRecord[]): ShownPart[] {
  const inTime = [...records].sort((a, b) => a.startSec - b.startSec || compareRank(a, b));
  const kept = new Map<string, number[]>(records.map((each) => [each.id, []]));
  const cutSec = new Map<string, Seconds>();
  for (const string of new Set(records.flatMap((each) => each.strings))) {
    const onString = resolveString(inTime.filter((each) => each.strings.includes(string)));
    onString.forEach((event, index) => {
      kept.get(event.id)?.push(string);
      const nextStartSec = onString[index + 1]?.startSec ?? Number.POSITIVE_INFINITY;
      cutSec.set(event.id, Math.min(cutSec.get(event.id) ?? event.endSec, nextStartSec));
    });
  }
  return inTime
    .flatMap((event) => {
      const strings = (kept.get(event.id) ?? []).sort((a, b) => a - b);
      const endSec = cutSec.get(event.id);
      if (endSec === undefined) return [];
      const { endSec: writtenEndSec, strings: writtenStrings } = event;
      const held =
        event.frets && strings.length > 0 ? settleFrets(strings.map((string) => fretOn(event, string))) : {};
      return [{ ...event, ...held, strings, endSec, writtenEndSec, writtenStrings }];
    })
    .sort(inOrder);
}

function inOrder(a: ShownPart, b: ShownPart): number {
  return a.startSec - b.startSec || a.strings[0]! - b.strings[0]! || compareText(a.id, b.id);
}

/** Of all events on one string, in order of time, those that keep it. */
function resolveString(inTime: readonly PartRecord[]): PartRecord[] {
  const kept: PartRecord[] = [];
  for (const event of inTime) {
    const before = kept.at(-1);
    if (before === undefined) kept.push(event);
    else if (event.startSec - before.startSec < SHORTEST_SEC) {
      if (compareWhole(event, before) < 0) kept[kept.length - 1] = event;
    } else if (!(compareMark(before, event) < 0 && event.startSec < before.endSec)) kept.push(event);
  }
  return kept;
}
