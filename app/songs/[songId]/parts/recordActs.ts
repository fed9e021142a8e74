import { keepInView } from "@/lib/client/axis/timeAxis";
import { wordsOf } from "@/lib/client/requests/request";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { type Selection, selectedSpan } from "./selection";

/** Kinds of a selection that are long enough to be played along with; of shorter ones the passage at hand is meant. */
const STRETCHES: readonly (NonNullable<Selection>["kind"] | undefined)[] = [
  "span",
  "section",
  "study",
  "events",
  "question",
  "take",
];

/** Recording a take, by key and button alike; what is done with one stands in takeActs.ts. */
export function recordActs(desk: Desk) {
  const { takes, opened, selection, grid, atHand, player, parts, say, axis } = desk;
  const here = takes.takes;

  /** What a take is recorded of: what is selected, else the passage at hand, else what is looped. */
  function stretch(): { startSec: Seconds; endSec: Seconds } | null {
    const chosen = STRETCHES.includes(selection?.kind) ? selectedSpan(opened.song, selection, grid) : null;
    return chosen ?? atHand.study ?? player.now().loop;
  }

  return {
    /** Begins a take; ends the one that is being recorded, which is kept. */
    async record(): Promise<void> {
      if (here?.recorder.isOn) {
        here.recorder.stop();
        return;
      }
      const of = stretch();
      if (!of) {
        say("A take goes along with a stretch: select a few bars, or take a passage in hand, then record.");
        return;
      }
      const { startSec, endSec } = of;
      axis.change((now) => keepInView(keepInView(now, endSec, 8), startSec, 48));
      try {
        const opened = await takes.want();
        const partId = parts.areSeveral ? parts.atHand.id : null;
        await opened.record({ startSec, endSec: Math.min(endSec, player.durationSec), partId }, grid);
      } catch (fault) {
        say(`Nothing was recorded. ${wordsOf(fault)}`);
      }
    },
    /** Drops what is being recorded, or stops what is heard. @returns whether there was any */
    cancel: (): boolean => here?.recorder.cancel() || here?.listening.stop() || false,
  };
}
