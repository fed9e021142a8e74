import type { TracedNote } from "@/lib/client/song/noteTrace";
import type { Desk } from "./DeskContext";
import { heardTuning } from "./heardTuning";

/** Plays notes alone, as a steel would, in tune with the record; the record stops for it. */
export function hearAlone(desk: Desk, notes: readonly TracedNote[]): void {
  const { player, sounder, say } = desk;
  player.pause();
  sounder
    .sound(notes, heardTuning(desk), player.now().level)
    .catch(() => say("This browser will not play sound of its own now. Click on the page and try again."));
}

/** Plays notes where they sound in the record, all else faint; then the record is where it was. */
export function hearInRecord({ player, sounder, opened }: Desk, notes: readonly TracedNote[]): void {
  sounder.stop();
  void player.playNotes(notes, opened.song.tuning?.tuningCents ?? 0);
}
