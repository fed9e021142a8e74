import { readSaidPart } from "../read/readHead";
import type { Settled } from "../read/settle";
import type { CommandContext } from "./act";
import type { Pen } from "./Pen";
import { Refused } from "./refusals";

/** Refuses a part that is not shown: one that does not stand and has no event to show (rule D54). */
export function checkPart(ctx: CommandContext, pen: Pen<"part">, id: string): void {
  if (readSaidPart(ctx.doc, id).isThere) return;
  for (const { standing, values } of pen.sheet.values())
    if (standing === "shown" && values.part === id) return;
  throw new Refused("unknownPart");
}

/** Refuses an event of another part: what is written with it is meant for this one alone (rule D52). */
export function checkOfPart({ values }: Settled<"part">, id: string): void {
  if (values.part !== id) throw new Refused("otherPart");
}
