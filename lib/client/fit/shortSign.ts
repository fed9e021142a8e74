import { toHexString } from "lib0/buffer";
import { digest } from "lib0/hash/sha256";
import { type AskedEvent, signOf } from "./askedEvents";

/** 64 bits: what an event says is told apart, and a passage of many events takes little room in the shared song. */
const SIGN_BYTES = 8;

/** {@link signOf}, short enough to be kept beside every event that was checked: the first bytes of its SHA-256, as hex. */
export function shortSign(event: AskedEvent): string {
  return toHexString(digest(new TextEncoder().encode(signOf(event))).slice(0, SIGN_BYTES));
}
