import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import { readCovers } from "../read/readCovers";
import { joined } from "../read/stretches";
import {
  COVERS,
  type CoveredFor,
  type KeptCover,
  type KeptLook,
  LOOKED_PREFIX,
  SELF_PREFIX,
  STUDENTS_PREFIX,
} from "../records/covers";
import { isGuessLane } from "../records/guessGuards";
import { isRecordId, registerKey } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { outcomeWrites, type ToldGuess } from "./guesses";
import { checkTarget, LESSON } from "./lesson";
import { Refused } from "./refusals";
import { checkStretch } from "./stretch";

/** Lanes of a study, or of the whole song. */
export interface CoveredPlace {
  /** Id of the study, or `WHOLE_SONG`. */
  target: string;
  lanes: readonly GuessLane[];
}

/**
 * Lays covers over lanes, or lifts them, for all students or for oneself (rule D44). Covering what is covered already
 * covers it anew, for those too who have looked.
 */
export function setCovers(
  ctx: CommandContext,
  { target, lanes }: CoveredPlace,
  coveredFor: CoveredFor,
  isCovered: boolean,
): CommandResult {
  return act({ ...ctx, origin: LESSON }, (writes) => {
    checkTarget(ctx, target);
    if (lanes.length === 0 || !lanes.every(isGuessLane)) throw new Refused("badLane");
    const lying = readCovers(ctx.doc).covers.filter((cover) => cover.target === target);
    for (const lane of new Set(lanes)) {
      const isThere = lying.some(
        (cover) =>
          cover.lane === lane &&
          cover.coveredFor === coveredFor &&
          (coveredFor === "students" || cover.by === ctx.by),
      );
      if (!isCovered && !isThere) continue;
      const register = coveredFor === "students" ? STUDENTS_PREFIX + lane : `${SELF_PREFIX}${lane}.${ctx.by}`;
      const cover: KeptCover = { stamp: stampFor(ctx), by: ctx.by, atMs: ctx.nowMs, isCovered };
      writes.push({ kind: COVERS, key: registerKey(target, register), value: cover });
    }
    return writes.length > 0 ? [target] : [];
  });
}

/** Where somebody looks under covers. */
export interface LookedPlace {
  /** Id of the study, or `WHOLE_SONG`. */
  target: string;
  /** Null for all of it. */
  stretch: HeardStretch | null;
}

/**
 * Looks under the covers of a lane, for the person who looks alone, and keeps how the guesses there compared (rule D47).
 * @param places every one whose covers lie there
 * @param told guesses of one's own that were not told yet; others are passed over
 */
export function look(
  ctx: CommandContext,
  lane: GuessLane,
  places: readonly LookedPlace[],
  told: readonly ToldGuess[] = [],
): CommandResult {
  return act({ ...ctx, origin: LESSON }, (writes) => {
    if (!isGuessLane(lane)) throw new Refused("badLane");
    const { covers, looks } = readCovers(ctx.doc);
    for (const { target, stretch } of places) {
      checkTarget(ctx, target);
      const isHere = (each: { target: string; lane: GuessLane }) =>
        each.target === target && each.lane === lane;
      const seen = covers
        .filter((cover) => isHere(cover) && (cover.coveredFor === "students" || cover.by === ctx.by))
        .map(({ stamp }) => stamp);
      const before = looks.find((each) => isHere(each) && each.by === ctx.by);
      // Looks under covers that have been laid anew since say nothing any more; those that were lifted since do not count.
      const isLifted = before !== undefined && seen.every((stamp) => before.seen.includes(stamp));
      const now = stretch && [checkStretch(stretch)];
      const stretches = isLifted && now ? before.stretches && joined([...before.stretches, ...now]) : now;
      const kept: KeptLook = { atMs: ctx.nowMs, seen, stretches };
      writes.push({
        kind: COVERS,
        key: registerKey(target, `${LOOKED_PREFIX}${lane}.${ctx.by}`),
        value: kept,
      });
    }
    writes.push(...outcomeWrites(ctx, told));
    return places.map(({ target }) => target);
  });
}

function stampFor(ctx: CommandContext): string {
  const stamp = ctx.newId();
  if (!isRecordId(stamp)) throw new Refused("badId");
  return stamp;
}
