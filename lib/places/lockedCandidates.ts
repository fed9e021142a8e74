import { feetAndKneesCanHold } from "@/lib/instrument/holdable";
import type { Midi } from "@/lib/units/quantities";
import { type CandidateOptions, findCandidates } from "./candidates";
import type { FixedStages } from "./FixedStages";
import { fewestLocks } from "./fewestLocks";
import { joinWords } from "./joinWords";
import type { Lock } from "./locks";
import { lockedOut, type NoPlace } from "./NoPlace";
import type { Neck } from "./neck";
import type { Spot } from "./Spot";
import { findSlants } from "./slants/slantCandidates";

/** Every candidate that keeps all the locks, ordered as `findCandidates` orders them; slants, where wanted, after the rest. */
export function lockedCandidates(
  neck: Neck,
  notesMidi: readonly Midi[],
  locks: readonly Lock[],
  options: Omit<CandidateOptions, "fixed"> = {},
): Spot[] {
  const within = { ...options, fixed: mostFixed(locks) };
  const straight = findCandidates(neck, notesMidi, within);
  const found = options.slants ? [...straight, ...findSlants(neck, notesMidi, within)] : straight;
  return locks.length === 0
    ? found
    : found.filter((spot) => locks.every((lock) => lock.keeps(spot, notesMidi)));
}

/** Of locks that settle feet and knees one that settles most: the others only choose among what it leaves. */
function mostFixed(locks: readonly Lock[]): FixedStages | undefined {
  const fixed = locks.flatMap((lock) => lock.fixed ?? []);
  return fixed.find(({ isWhole }) => isWhole) ?? fixed[0];
}

/**
 * Why locks leave notes no place: the fewest locks that do so; where even without any lock there is no place, that.
 */
export function whyNone(
  neck: Neck,
  notesMidi: readonly Midi[],
  locks: readonly Lock[],
  options: Omit<CandidateOptions, "fixed"> = {},
): NoPlace {
  const leavesNone = (some: readonly Lock[]) => lockedCandidates(neck, notesMidi, some, options).length === 0;
  if (leavesNone([])) {
    const words =
      notesMidi.length === 1
        ? "This note does not lie on this neck."
        : "These notes do not lie on this neck together.";
    return { because: "instrument", words };
  }
  const few = fewestLocks(locks, leavesNone);
  const words = few.map((lock) => lock.words);
  if (few.some(({ fixed }) => fixed && !feetAndKneesCanHold(fixed.stages)))
    return { because: "locks", words: `Locked: ${joinWords(words)}. Foot and knees cannot hold that.` };
  return lockedOut(words);
}
