import { isLoopOf } from "@/lib/client/practice/PracticeKeeper";
import type { Desk } from "./DeskContext";
import { selectedSpan } from "./selection";

/** Plays the selection over and over; a second time, or with nothing selected, goes on without a loop. */
export function loopSelection({ opened, selection, grid, player, say }: Desk): void {
  const { loop } = player.now();
  const span = selectedSpan(opened.song, selection, grid);
  const isSame = loop && span && loop.startSec === span.startSec && loop.endSec === span.endSec;
  if (isSame || (!span && loop)) player.setLoop(null);
  else if (span) {
    player.setLoop({ startSec: span.startSec, endSec: span.endSec });
    if (!player.now().isPlaying) void player.play();
  } else say("Select a change, an event or a few bars to loop.");
}

/** Plays the passage at hand over and over, whatever is selected; a second time goes on without a loop. */
export function loopAtHand({ atHand, player, say }: Desk): void {
  const { study } = atHand;
  if (!study) say("No passage is at hand. Take one on the strip, or make one of a selection.");
  else if (isLoopOf(player.now().loop, study)) player.setLoop(null);
  else {
    player.setLoop({ startSec: study.startSec, endSec: study.endSec });
    if (!player.now().isPlaying) void player.play();
  }
}
