import { WHOLE_SONG } from "../records/covers";
import type { CommandContext } from "./act";
import { findStanding, Pen } from "./Pen";

/** The origin of covers and guesses, whatever the caller's: undo goes by origins, and takes back neither (rules D44, D46). */
export const LESSON = { name: "lesson" };

/** Refuses what is neither the whole song nor a study that stands. */
export function checkTarget(ctx: CommandContext, target: string): void {
  if (target !== WHOLE_SONG) findStanding(new Pen(ctx, "study", []).sheet, target);
}
