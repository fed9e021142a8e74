import { keepInView } from "@/lib/client/axis/timeAxis";
import { wordsOf } from "@/lib/client/requests/request";
import type { ListedTake } from "@/lib/client/takes/TakeShelf";
import type { TakeHeard } from "@/lib/client/takes/takeHeard";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { type Selection, selectedSpan } from "./selection";
import { selectedTake } from "./useTakeRecorder";

/** Kinds of a selection that are long enough to be played along with; of shorter ones the passage at hand is meant. */
const STRETCHES: readonly (NonNullable<Selection>["kind"] | undefined)[] = [
  "span",
  "section",
  "study",
  "events",
  "question",
  "take",
];

/** What is done about takes, by key, button and row alike. */
export function takeActs(desk: Desk) {
  const { takes, opened, selection, grid, atHand, player, parts, say, select, axis } = desk;
  const here = takes.takes;
  const take = selectedTake(desk);

  /** What a take is recorded of: what is selected, else the passage at hand, else what is looped. */
  function stretch(): { startSec: Seconds; endSec: Seconds } | null {
    const chosen = STRETCHES.includes(selection?.kind) ? selectedSpan(opened.song, selection, grid) : null;
    return chosen ?? atHand.study ?? player.now().loop;
  }

  function choose(next: ListedTake): void {
    const { id, startSec, endSec } = next;
    select({ kind: "take", id, startSec, endSec });
  }

  return {
    take,
    choose,
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
    /** Hears the selected take in a way; in the same again, stops. */
    hear(heard: TakeHeard): void {
      if (!take || !here) return;
      const { takeId, heard: heardNow } = here.listening.now();
      if (takeId === take.id && heardNow === heard) here.listening.stop();
      else if (here.recorder.isOn) say("A take is being recorded. Stop it first, then listen.");
      else void here.listening.hear(take, heard);
    },
    toggleLoop(): void {
      if (!here) return;
      const isLooping = !here.listening.now().isLooping;
      here.listening.setLooping(isLooping);
      say(isLooping ? "Takes are heard over and over." : "Takes are heard once.");
    },
    async toggleShared(): Promise<void> {
      if (!take || !here) return;
      if (!take.isOwn) {
        say(`Only ${take.ownerName} can share this take or keep it private.`);
        return;
      }
      if (take.unsent) {
        say("The server does not have this take yet, so nobody else can hear it. Share it once it is sent.");
        return;
      }
      try {
        await here.shelf.share(take, !take.isShared);
        say(
          take.isShared
            ? "Only you hear the take again."
            : `Everyone in ${desk.page.bookTitle} can hear the take now.`,
        );
      } catch (fault) {
        say(wordsOf(fault));
      }
    },
    /** The take before or after, in order of the record and then of when they were made. */
    step(direction: -1 | 1): void {
      const all = [...(here?.shelf.now().takes ?? [])].sort(
        (a, b) => a.startSec - b.startSec || a.madeAtMs - b.madeAtMs,
      );
      const at = take ? all.findIndex(({ id }) => id === take.id) : -1;
      const next = all[at + direction] ?? (take ? null : all[0]);
      if (next) choose(next);
    },
    async download(): Promise<void> {
      if (!take || !here) return;
      try {
        const [{ saveBlob }, file] = await Promise.all([
          import("@/lib/client/page/saveFile"),
          here.sounds.file(take.id),
        ]);
        saveBlob({ title: `${desk.page.title}, take`, ending: "wav", blob: file });
      } catch (fault) {
        say(wordsOf(fault));
      }
    },
  };
}
