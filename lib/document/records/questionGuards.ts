import type { HeardStretch } from "@/lib/hearing/Hearing";
import { isEpochMs, isObject, isTime } from "./guards";
import {
  type KeptSaying,
  type KeptSettled,
  type KeptThere,
  type KeptWords,
  LONGEST_WORDS,
} from "./questions";
import { isRecordId } from "./storage";

/** Words without spaces around them, one sign at least. */
export function isWords(value: unknown): value is string {
  return typeof value === "string" && value !== "" && value === value.trim() && value.length <= LONGEST_WORDS;
}

/** Null where it cannot be read. */
export function readKeptSaying(value: unknown): KeptSaying | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || !isWords(value.words)) return null;
  const { atMs, words, question } = value;
  if (!(question === null || isRecordId(question))) return null;
  const stretch = readStretch(value.stretch);
  if (stretch === null && (question === null || value.stretch !== null)) return null;
  return { atMs, words, question, stretch };
}

/** Null where it cannot be read. */
export function readKeptThere(value: unknown): KeptThere | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || typeof value.isThere !== "boolean") return null;
  return { isThere: value.isThere, atMs: value.atMs };
}

/** Null where it cannot be read. */
export function readKeptWords(value: unknown): KeptWords | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || !isWords(value.words)) return null;
  return { words: value.words, atMs: value.atMs };
}

/** Null where it cannot be read; answers that cannot be read are passed over. */
export function readKeptSettled(value: unknown): KeptSettled | null {
  if (!isObject(value) || !isEpochMs(value.atMs) || typeof value.isSettled !== "boolean") return null;
  const { isSettled, by, atMs, seen } = value;
  if (typeof by !== "string" || !Array.isArray(seen)) return null;
  return { isSettled, by, atMs, seen: seen.filter(isRecordId) };
}

function readStretch(value: unknown): HeardStretch | null {
  if (!isObject(value) || !isTime(value.startSec) || !isTime(value.endSec)) return null;
  return { startSec: value.startSec, endSec: value.endSec };
}
