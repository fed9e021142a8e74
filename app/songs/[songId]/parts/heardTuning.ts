import type { Cents } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";

/** How far the record, as it is heard now, stands from A4 = 440 Hz: as it was made, and as it is moved and retuned. */
export function heardTuning({ opened, player }: Pick<Desk, "opened" | "player">): Cents {
  return (opened.song.tuning?.tuningCents ?? 0) + player.now().shiftCents;
}
