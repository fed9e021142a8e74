import { digest } from "lib0/hash/sha256";
import type { Seconds } from "@/lib/units/quantities";
import type { RecordKind } from "./records";

/**
 * The id of a finding of the machine (rule D7): the same finding has the same id in every hearing.
 * `m` and the first 60 bits of SHA-256 (FIPS 180-4), in hexadecimal.
 * @param startSec rounded to 10 ms before it counts
 * @param what says the rest of the finding, such as a label
 */
export function heardId(kind: RecordKind, startSec: Seconds, what: string): string {
  const text = `${kind}|${Math.round(startSec * 100)}|${what}`;
  const bytes = digest(new TextEncoder().encode(text)).slice(0, 8);
  const hexadecimal = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return `m${hexadecimal.slice(0, 15)}`;
}
