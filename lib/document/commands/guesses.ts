import type { LaneValue } from "@/lib/lesson/GuessValue";
import { readGuesses } from "../read/readGuesses";
import { GUESSES, type KeptGuess, type KeptOutcome, MADE_PREFIX, TOLD_PREFIX } from "../records/guesses";
import { isComparison, isLaneValue, readKeptGuess } from "../records/guessGuards";
import { isRecordId, registerKey } from "../records/storage";
import { act, type CommandContext, type CommandResult, type Write } from "./act";
import { checkTarget, LESSON } from "./lesson";
import { Refused } from "./refusals";
import { checkStretch } from "./stretch";

/** What a person says with a guess; the command adds when it was made. */
export type GuessFields = LaneValue & Omit<KeptGuess, "lane" | "value" | "atMs">;

/** Keeps a guess, for good: nobody edits it, its maker neither (rule D46). */
export function addGuess(ctx: CommandContext, fields: GuessFields): CommandResult {
  return act({ ...ctx, origin: LESSON }, (writes) => {
    checkTarget(ctx, fields.target);
    checkStretch(fields);
    const guess = readKeptGuess({ ...fields, atMs: ctx.nowMs });
    if (!guess) throw new Refused("badGuess");
    const id = ctx.newId();
    if (!isRecordId(id) || readGuesses(ctx.doc).some((each) => each.id === id)) throw new Refused("badId");
    writes.push({ kind: GUESSES, key: registerKey(id, MADE_PREFIX + ctx.by), value: guess });
    return [id];
  });
}

/** How a guess compared, for its maker's own guesses that are uncovered. */
export type ToldGuess = Omit<KeptOutcome, "atMs"> & { id: string };

/** The writes that keep how guesses compared; those that were told before are passed over. */
export function outcomeWrites(ctx: CommandContext, told: readonly ToldGuess[]): Write[] {
  const guesses = new Map(readGuesses(ctx.doc).map((guess) => [guess.id, guess]));
  return told.flatMap(({ id, comparison, answer }) => {
    const guess = guesses.get(id);
    if (!guess) throw new Refused("unknownRecord");
    if (guess.by !== ctx.by) throw new Refused("othersGuess");
    if (!isComparison(comparison)) throw new Refused("badGuess");
    if (answer !== null && !isLaneValue({ lane: guess.lane, value: answer })) throw new Refused("badGuess");
    if (guess.outcome) return [];
    const outcome: KeptOutcome = { atMs: ctx.nowMs, comparison, answer };
    return [{ kind: GUESSES, key: registerKey(id, TOLD_PREFIX + ctx.by), value: outcome }];
  });
}
