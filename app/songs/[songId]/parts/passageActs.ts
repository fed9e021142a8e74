import { partLocksOf } from "@/lib/client/places/HeldLocks";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { wordsOf } from "@/lib/client/requests/request";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { partAround } from "@/lib/client/song/partAround";
import { pencilledIds } from "@/lib/client/song/pencilledIds";
import type { PlacedPassage } from "@/lib/client/song/placePassage";
import { addPartEvents, inkPartEvents } from "@/lib/document/commands/part";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { PartLocks } from "@/lib/places/PlaceLocks";
import { benchLocks } from "./benchLocks";
import type { Desk, LaidOut } from "./DeskContext";
import { hearAlone, hearInRecord } from "./hearNotes";
import { numberKeyAt, selectedSpan } from "./selection";

/** More notes than this are not laid out at once: nobody would check it. */
const MOST_NOTES = 1_000;
/** It is told that notes are being laid out once it takes so long. */
const TOLD_AFTER_MS = 300;

/** What can be done with the steel's notes of the selected stretch, as a passage. */
export function passageActs(desk: Desk) {
  const { opened, selection, grid, page, copedent, laidOut, layOut, say } = desk;
  const { song } = opened;
  const { writePart: run } = desk;
  const partId = desk.parts.atHand.id;
  const span = selectedSpan(song, selection, grid);
  const notes = span ? beginningWithin(song.notes, span) : [];

  const written = laidOut ? song.part.filter(({ id }) => laidOut.ids.flat().includes(id)) : [];
  /** Which way stands in the part now; -1 where none does. */
  const standing = laidOut?.ids.findIndex((ids) => written.some(({ id }) => ids.includes(id))) ?? -1;

  /**
   * Writes one way in pencil, in place of the pencil that this person has there, if the part is still on what it was laid
   * out on: the same string and fret is another pitch elsewhere. Gives the ids of the events.
   */
  function pencil(
    way: LaidOut["ways"][number],
    instead: readonly string[],
    laidOn: Copedent,
  ): readonly string[] | null {
    const now = desk.now();
    if (now.parts.atHand.id !== partId) {
      say(
        "Another part has come to hand since these notes were laid out. Nothing was written; lay them out again.",
      );
      return null;
    }
    if (now.mayWritePart && JSON.stringify(now.copedent) !== JSON.stringify(laidOn)) {
      say(
        "The part has gone to another guitar or chart since these notes were laid out. Nothing was written; lay them out again.",
      );
      return null;
    }
    // Where it may not be written by now, as while it is seen on another guitar, this refuses and says so.
    return now.writePart(
      (ctx) => addPartEvents(ctx, way.events, "pencil", instead, partId),
      way.events.map(({ startSec }) => startSec),
    );
  }

  function choose(chosen: number) {
    const way = laidOut?.ways[chosen];
    if (!laidOut || !way) return;
    if (written.some(({ mark }) => mark === "ink")) {
      say(
        "Some of it stands in ink, which stays. Nothing was written; rub the ink out, or take it back, first.",
      );
      return;
    }
    // Undo may have brought back what an earlier way, or the first writing, had replaced.
    const instead = [...laidOut.ids.flat(), ...partAround(song.part, laidOut, page.me.id).instead];
    const added = pencil(way, instead, laidOut.copedent);
    if (!added) return;
    layOut({ ...laidOut, ids: laidOut.ids.map((ids, at) => (at === chosen ? [...ids, ...added] : ids)) });
  }

  return {
    notes,
    written,
    standing,
    hear(where: "alone" | "record") {
      if (notes.length === 0) say("No notes of the steel begin here.");
      else if (where === "alone") hearAlone(desk, notes);
      else hearInRecord(desk, notes);
    },
    /**
     * Lays the notes out on the neck as a whole, as far as locks of the bench allow, and writes the easiest way into the
     * part, in pencil. It is done off the page's thread, and Esc stops it.
     */
    async write() {
      if (!span || notes.length === 0) {
        say("No notes of the steel begin here. Nothing was written.");
        return;
      }
      if (notes.length > MOST_NOTES) {
        say(
          `These are ${notes.length} notes. Nothing was written; select ${MOST_NOTES} or fewer, as in one section.`,
        );
        return;
      }
      if (placeFinder().isLaying) {
        say("Notes are being laid out already. Esc stops that.");
        return;
      }
      const { instead, kept } = partAround(song.part, span, page.me.id);
      const key = numberKeyAt(song, span.startSec) ?? undefined;
      const locks = partLocksOf(benchLocks.now().held);
      const around = { key, changes: song.changes, kept, locks };
      const telling = setTimeout(
        () => say(`Laying ${notes.length} notes out on the neck. Esc stops it; nothing is written yet.`),
        TOLD_AFTER_MS,
      );
      let placed: PlacedPassage | null;
      try {
        placed = await placeFinder().passage({ copedent, notes, around });
      } catch (thrown) {
        say(wordsOf(thrown));
        return;
      } finally {
        clearTimeout(telling);
      }
      if (!placed) {
        say("Stopped. Nothing was written.");
        return;
      }
      const [easiest] = placed.ways;
      if (!easiest) {
        say(
          placed.leftOutCount < notes.length
            ? "All of it stands in the part already. Nothing was written."
            : noneWords(locks),
        );
        return;
      }
      const added = pencil(easiest, instead, copedent);
      if (!added) return;
      const { startSec, endSec } = span;
      const { ways, leftOutCount } = placed;
      layOut({
        startSec,
        endSec,
        copedent,
        ways,
        ids: ways.map((way) => (way === easiest ? added : [])),
        leftOutCount,
      });
      say(writtenWords(placed));
    },
    /** Writes another of the ways instead. */
    choose,
    nextWay() {
      if (laidOut) choose((standing + 1) % laidOut.ways.length);
    },
    /** Inks what was written of the passage. */
    ink() {
      const ids = pencilledIds(written);
      if (ids.length > 0) run((ctx) => inkPartEvents(ctx, ids));
    },
  };
}

/** Why nothing of a passage could be written. */
function noneWords(locks: PartLocks): string {
  return Object.keys(locks).length === 0
    ? "None of these notes lie on this neck as a hand plays them. Nothing was written."
    : "The locks on the bench leave none of these notes a place. Nothing was written; let one off.";
}

/** How much was written, and what is next. */
function writtenWords({ ways, leftOutCount }: PlacedPassage): string {
  const count = ways[0]?.events.length ?? 0;
  const events = count === 1 ? "1 event" : `${count} events`;
  const leftOut =
    leftOutCount === 0
      ? ""
      : ` ${leftOutCount === 1 ? "1 note was" : `${leftOutCount} notes were`} left out.`;
  return `${events} written in pencil.${leftOut}${ways.length > 1 ? " Other ways to play it stand below." : ""}`;
}
