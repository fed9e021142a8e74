import type { HomeSpan } from "./metrics/homesScore";
import type { Truth } from "./Subject";

/** One key as the home of a whole record, however long it is. */
export function wholeRecord(key: NonNullable<Truth["key"]>): HomeSpan[] {
  return [{ startSec: 0, endSec: Number.POSITIVE_INFINITY, ...key }];
}
