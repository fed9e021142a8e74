import type { Passage } from "../read/passages";
import { PASSAGES, registerKey, SHEET_REGISTER } from "../records/storage";
import type { Write } from "./act";

/** Takes away what was heard of passages. */
export function takeAway(passages: readonly Passage[]): Write[] {
  return passages.map(({ id }) => ({
    kind: PASSAGES,
    key: registerKey(id, SHEET_REGISTER),
    value: undefined,
  }));
}
