import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { partAround } from "@/lib/client/song/partAround";
import { type PlacedPassage, placePassage } from "@/lib/client/song/placePassage";
import { addPartEvents, inkPartEvents } from "@/lib/document/commands/part";
import type { Desk, LaidOut } from "./DeskContext";
import { hearAlone, hearInRecord } from "./hearNotes";
import { keyAt, selectedSpan } from "./selection";

/** More notes than this are not laid out at once: it would take longer than an act may, and nobody would check it. */
const MOST_NOTES = 200;

/** What can be done with the steel's notes of the selected stretch, as a passage. */
export function passageActs(desk: Desk) {
  const { opened, selection, grid, page, copedent, laidOut, layOut, say } = desk;
  const { song } = opened;
  const { run } = opened.acts;
  const span = selectedSpan(song, selection, grid);
  const notes = span ? beginningWithin(song.notes, span) : [];

  /** Writes one way in pencil, in place of the pencil that this person has there; gives the ids of the events. */
  function pencil(way: LaidOut["ways"][number], instead: readonly string[]): readonly string[] | null {
    return run((ctx) => addPartEvents(ctx, way.events, "pencil", instead));
  }

  function choose(chosen: number) {
    const way = laidOut?.ways[chosen];
    const ids = laidOut && way && pencil(way, laidOut.ids);
    if (ids) layOut({ ...laidOut, chosen, ids });
  }

  return {
    notes,
    hear(where: "alone" | "record") {
      if (notes.length === 0) say("No notes of the steel begin here.");
      else if (where === "alone") hearAlone(desk, notes);
      else hearInRecord(desk, notes);
    },
    /** Lays the notes out on the neck as a whole and writes the easiest way into the part, in pencil. */
    write() {
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
      const { instead, kept } = partAround(song.part, span, page.me.id);
      const key = keyAt(song, span.startSec);
      const placed = placePassage(copedent, notes, { key, changes: song.changes, kept });
      const [easiest] = placed.ways;
      if (!easiest) {
        say(
          placed.leftOutCount < notes.length
            ? "All of it stands in the part already. Nothing was written."
            : "None of these notes lie on this neck as a hand plays them. Nothing was written.",
        );
        return;
      }
      const ids = pencil(easiest, instead);
      if (!ids) return;
      const { startSec, endSec } = span;
      const { ways, leftOutCount } = placed;
      layOut({ startSec, endSec, ways, chosen: 0, ids, leftOutCount });
      say(writtenWords(placed));
    },
    /** Writes another of the ways instead. */
    choose,
    nextWay() {
      if (laidOut) choose((laidOut.chosen + 1) % laidOut.ways.length);
    },
    /** Inks what was written of the passage. */
    ink() {
      const pencilled = song.part.filter(({ id, mark }) => mark === "pencil" && laidOut?.ids.includes(id));
      if (pencilled.length > 0)
        run((ctx) =>
          inkPartEvents(
            ctx,
            pencilled.map(({ id }) => id),
          ),
        );
    },
  };
}

/** How much was written, and what is next. */
function writtenWords({ ways, leftOutCount }: PlacedPassage): string {
  const count = ways[0]?.events.length ?? 0;
  const events = count === 1 ? "1 event" : `${count} events`;
  const leftOut =
    leftOutCount === 0
      ? ""
      : ` ${leftOutCount === 1 ? "1 note was" : `${leftOutCount} notes were`} left out.`;
  return `${events} written in pencil.${leftOut}${ways.length > 1 ? " N goes to the next way to play it." : ""}`;
}
