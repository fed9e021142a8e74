import type { Loop } from "@/lib/client/playback/playbackMessages";
import { isLoopOf } from "@/lib/client/practice/PracticeKeeper";
import type { Desk } from "./DeskContext";
import { selectedSpan } from "./selection";

/** Plays the selection over and over; a second time, or with nothing selected, goes on without a loop. */
export function loopSelection({ opened, selection, grid, player, say }: Desk): void {
  const { loop } = player.now();
  const span = selectedSpan(opened.song, selection, grid);
  if (loop && (!span || isLoopOf(loop, span))) player.setLoop(null);
  else if (span) loopOver(player, span);
  else say("Select a change, an event or a few bars to loop.");
}

/** Plays the passage at hand over and over, whatever is selected; a second time goes on without a loop. */
export function loopAtHand({ atHand, player, say }: Desk): void {
  const { study } = atHand;
  if (!study) say("No passage is at hand. Take one on the strip, or make one of a selection.");
  else if (isLoopOf(player.now().loop, study)) player.setLoop(null);
  else loopOver(player, study);
}

/** Plays a stretch over and over; a second time goes on without a loop. */
export function loopStretch(player: Desk["player"], stretch: Loop): void {
  if (isLoopOf(player.now().loop, stretch)) player.setLoop(null);
  else loopOver(player, stretch);
}

function loopOver(player: Desk["player"], { startSec, endSec }: Loop): void {
  player.setLoop({ startSec, endSec });
  if (!player.now().isPlaying) void player.play();
}
