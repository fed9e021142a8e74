import { COMPARISONS, type Comparison } from "@/lib/lesson/Comparison";
import { GUESS_LANES, type GuessLane, type LaneValue } from "@/lib/lesson/GuessValue";
import type { KeptCover, KeptLook } from "./covers";
import {
  isCertainty,
  isChangeIds,
  isCount,
  isEpochMs,
  isFret,
  isHomeKey,
  isLabel,
  isNotePitch,
  isObject,
  isStrings,
  isTime,
} from "./guards";
import type { KeptGuess, KeptOutcome } from "./guesses";
import { isRecordId } from "./storage";

/** More stretches than these were never looked at one by one. */
const MOST_STRETCHES = 500;
/** As many notes as anybody guesses at once. */
const MOST_NOTES = 12;

export function isGuessLane(value: unknown): value is GuessLane {
  return GUESS_LANES.some((lane) => lane === value);
}

export function isComparison(value: unknown): value is Comparison {
  return COMPARISONS.some((comparison) => comparison === value);
}

/** Whether a value has the form of its lane. */
export function isLaneValue(said: { lane: unknown; value: unknown }): said is LaneValue {
  const { lane, value } = said;
  if (!isObject(value)) return false;
  switch (lane) {
    case "home":
      return isHomeKey(value);
    case "changes":
      return isLabel(value.label);
    case "heard":
      return isPitches(value.midis);
    case "places":
      return isStrings(value.strings) && isFret(value.fret) && isChangeIds(value.changes);
    default:
      return false;
  }
}

function isPitches(value: unknown): boolean {
  return Array.isArray(value) && value.length > 0 && value.length <= MOST_NOTES && value.every(isNotePitch);
}

/** Null where it cannot be read. */
export function readKeptGuess(value: unknown): KeptGuess | null {
  if (!isObject(value)) return null;
  const { lane, value: guessed, target, part, startSec, endSec, fit, hintCount, atMs } = value;
  const said = { lane, value: guessed };
  if (!isLaneValue(said) || !isRecordId(target) || !isEpochMs(atMs)) return null;
  if (!isTime(startSec) || !isTime(endSec) || endSec <= startSec) return null;
  if (!(fit === null || isCertainty(fit)) || !isCount(hintCount)) return null;
  if (part !== undefined && !isRecordId(part)) return null;
  return { ...said, target, ...(part !== undefined && { part }), startSec, endSec, fit, hintCount, atMs };
}

/** Null where it cannot be read. @param lane that of the guess */
export function readKeptOutcome(value: unknown, lane: GuessLane): KeptOutcome | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || !isComparison(value.comparison)) return null;
  const { atMs, comparison } = value;
  const said = { lane, value: value.answer };
  if (value.answer !== null && !isLaneValue(said)) return null;
  return { atMs, comparison, answer: value.answer as KeptOutcome["answer"] };
}

/** Null where it cannot be read. */
export function readKeptCover(value: unknown): KeptCover | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || typeof value.isCovered !== "boolean") return null;
  const { stamp, by, atMs, isCovered } = value;
  if (typeof stamp !== "string" || stamp === "" || typeof by !== "string") return null;
  return { stamp, by, atMs, isCovered };
}

/** Null where it cannot be read; stretches that cannot be read are passed over. */
export function readKeptLook(value: unknown): KeptLook | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || !Array.isArray(value.seen)) return null;
  const { atMs, seen, stretches } = value;
  if (stretches !== null && !Array.isArray(stretches)) return null;
  return {
    atMs,
    seen: seen.filter((each) => typeof each === "string"),
    stretches:
      stretches?.slice(0, MOST_STRETCHES).flatMap((each: unknown) => {
        if (!isObject(each) || !isTime(each.startSec) || !isTime(each.endSec)) return [];
        const { startSec, endSec } = each;
        return endSec > startSec ? [{ startSec, endSec }] : [];
      }) ?? null,
  };
}
