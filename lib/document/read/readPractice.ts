import { readCountedThrough, readKeptCheck, readKeptListening } from "../records/readRegisters";
import type { Practice, StudyCheck, StudyListening, ThroughCount } from "../records/records";
import { CHECK_PREFIX, CLEAN_PREFIX, LISTEN_PREFIX, THROUGH_PREFIX } from "../records/storage";
import { compareText } from "./rank";

/** Of a study with which nobody did anything yet. */
export const NO_PRACTICE: Practice = { through: [], clean: [], listening: [], check: null };

/**
 * Reads what people did with a study: times through (rule D41) and clean takes (rule D64) added up over the devices of each person, how each
 * listens (rule D42), and the latest check (rule D43). What cannot be read is passed over (rule D5).
 * @param registers of the study, by name
 */
export function readPractice(registers: ReadonlyMap<string, unknown>): Practice {
  const through = new Map<string, ThroughCount>();
  const clean = new Map<string, ThroughCount>();
  const listening: StudyListening[] = [];
  const checks: StudyCheck[] = [];
  for (const [register, value] of registers) {
    if (register.startsWith(THROUGH_PREFIX)) addCount(through, register.slice(THROUGH_PREFIX.length), value);
    else if (register.startsWith(CLEAN_PREFIX)) addCount(clean, register.slice(CLEAN_PREFIX.length), value);
    else if (register.startsWith(LISTEN_PREFIX)) {
      const kept = readKeptListening(value);
      if (kept) listening.push({ by: register.slice(LISTEN_PREFIX.length), ...kept });
    } else if (register.startsWith(CHECK_PREFIX)) {
      const kept = readKeptCheck(value);
      if (kept) checks.push({ by: register.slice(CHECK_PREFIX.length), ...kept });
    }
  }
  return {
    through: [...through.values()].sort((a, b) => compareText(a.by, b.by)),
    clean: [...clean.values()].sort((a, b) => compareText(a.by, b.by)),
    listening: listening.sort(compareLatest),
    check: checks.sort(compareLatest)[0] ?? null,
  };
}

/** @param of whom and of which device, with a dot between them */
function addCount(counts: Map<string, ThroughCount>, of: string, value: unknown): void {
  const counted = readCountedThrough(value);
  // Person ids may hold dots, device ids hold none.
  const by = of.slice(0, Math.max(0, of.lastIndexOf(".")));
  if (counted === null || by === "") return;
  const before = counts.get(by) ?? { times: 0, fullSpeedTimes: 0, atMs: 0 };
  counts.set(by, {
    by,
    times: before.times + counted.times,
    fullSpeedTimes: before.fullSpeedTimes + counted.fullSpeedTimes,
    atMs: Math.max(before.atMs, counted.atMs),
  });
}

/** The latest first; at the same millisecond the higher person id. */
function compareLatest<T extends { by: string; atMs: number }>(a: T, b: T): number {
  return b.atMs - a.atMs || compareText(b.by, a.by);
}
