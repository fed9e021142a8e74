import type { UnsentTake } from "@/lib/client/takes/UnsentTakes";
import type { Desk } from "./DeskContext";

/** A take was recorded: it is selected, and held against the part where something is written there. */
export async function afterTake(desk: Desk, { id, about }: UnsentTake): Promise<void> {
  const { startSec, endSec } = about;
  desk.select({ kind: "take", id, startSec, endSec });
  const { judgeHere } = await import("./judgeHere");
  await judgeHere(desk.now(), id, true);
}
