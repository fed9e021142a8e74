import { wordsOf } from "@/lib/client/requests/request";
import type { TakeHeard } from "@/lib/client/takes/takeHeard";
import type { ListedTake } from "@/lib/client/takes/takeStates";
import type { Desk } from "./DeskContext";
import { takeRemoval } from "./takeRemoval";
import { selectedTake } from "./useTakeRecorder";

/** What is done about takes that there are, by key, button and row alike. */
export function takeActs(desk: Desk) {
  const { takes, say, select } = desk;
  const here = takes.takes;
  const take = selectedTake(desk);

  function choose(next: ListedTake): void {
    const { id, startSec, endSec } = next;
    select({ kind: "take", id, startSec, endSec });
  }

  return {
    take,
    choose,
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
    askRemoval(): void {
      if (take?.isOwn) takeRemoval.ask(take.id);
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
