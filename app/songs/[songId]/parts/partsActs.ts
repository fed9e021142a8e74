import { shortName } from "@/lib/client/copedents/copedentWords";
import { NOTHING_HELD } from "@/lib/client/places/HeldLocks";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { caretFrom } from "@/lib/client/song/caretFrom";
import type { GuitarChoice } from "@/lib/client/song/guitarChoice";
import { heldWords } from "@/lib/client/song/partAtHand";
import type { Caret } from "@/lib/client/song/partTyping";
import { addPart, namePart, takePartAway } from "@/lib/document/commands/parts";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { FIRST_PART } from "@/lib/document/records/storage";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { benchLocks } from "./benchLocks";
import type { Desk } from "./DeskContext";
import { selectedSpan } from "./selection";
import type { Parts } from "./useParts";

export const ONE_PART = "The song has one part. Add another in the sheet of its parts.";

/** The part after the one in hand, or before it, round and round; null where it is the only one. */
export function partBeside({ list, atHand, areSeveral }: Parts, direction: -1 | 1): SongPart | null {
  const at = list.findIndex(({ id }) => id === atHand.id);
  return areSeveral ? (list[(at + direction + list.length) % list.length] ?? null) : null;
}

/** The acts on the parts of the song as wholes; each that writes is one step of undo. */
export function partsActs(desk: Desk) {
  const { parts, selection, say } = desk;
  const { list, atHand, kept } = parts;
  const run = desk.opened.acts.run;
  const isInPart = selection?.kind === "caret" || selection?.kind === "events";

  /** What was begun about the part that was in hand ends: a search for places, a check, a trial, a passage on the bench. */
  function leave() {
    placeFinder().cancel();
    desk.fit?.check.cancel();
    desk.trial.drop();
    desk.layOut(null);
    // Strings and pedals that were held to are those of the other instrument.
    benchLocks.hold(NOTHING_HELD);
  }

  function letGo() {
    leave();
    if (isInPart) desk.select(null);
  }

  return {
    /**
     * Takes a part in hand: all acts on the part are then about it.
     * @param caret where the caret then stands; left out, it goes over at its time, where there is one
     */
    take(part: SongPart, caret?: Caret) {
      if (part.id !== atHand.id) leave();
      kept.take(part.id);
      const at =
        caret ??
        (isInPart ? caretFrom(part.events, selection.caret.timeSec, desk.grid, part.head.copedent) : null);
      if (at) desk.select({ kind: "caret", caret: at });
      if (part.id !== atHand.id)
        say(`${parts.nameOf(part.id)} is in hand now, on ${shortName(part.head.copedent)}.`);
    },
    /** The part after the one in hand, or before it, round and round. */
    step(direction: -1 | 1) {
      const next = partBeside(parts, direction);
      if (next) this.take(next);
      else say(ONE_PART);
    },
    /** @returns whether it was added; it is in hand then */
    add(name: string, { from, copedent }: GuitarChoice): boolean {
      const added = run((ctx) => addPart(ctx, { name, from, chart: writeChart(copedent) }));
      const [id] = added ?? [];
      if (!id) return false;
      leave();
      kept.take(id);
      // Whoever adds a part goes on to write in it.
      const fromSec = selectedSpan(desk.opened.song, selection, desk.grid)?.startSec ?? desk.player.timeSec;
      desk.select({ kind: "caret", caret: caretFrom([], fromSec, desk.grid, copedent) });
      say(`${name.trim() || "The new part"} is in hand now, on ${shortName(copedent)}.`);
      return true;
    },
    /** What follows where the part in hand is gone by another's act, or by undo, and the first has come in its place. */
    wasTakenAway() {
      letGo();
      // Where it comes back, it does not change under the hands of who goes on elsewhere.
      kept.take(atHand.id);
      say(`The part that was in hand is not in the song any more. ${parts.nameOf()} is in hand now.`);
    },
    name(id: string, name: string) {
      run((ctx) => namePart(ctx, id, name));
    },
    /** @returns what was taken away, in words; null where it was not */
    takeAway(part: SongPart): string | null {
      const name = parts.nameOf(part.id);
      if (!run((ctx) => takePartAway(ctx, part.id))) return null;
      if (part.id === atHand.id) {
        letGo();
        kept.take(list[list.findIndex(({ id }) => id === part.id) - 1]?.id ?? FIRST_PART);
      }
      const words = `${name} was taken away${part.events.length > 0 ? `, with ${heldWords(part)}` : ""}.`;
      say(`${words} Undo brings it back.`);
      return words;
    },
  };
}
