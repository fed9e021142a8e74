import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { wordsOf } from "@/lib/client/requests/request";
import type { GripWay } from "@/lib/client/song/otherGrips";
import { shiftedFrets } from "@/lib/client/song/shiftedFrets";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Desk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { numberKeyAt } from "./selection";

/** It is told that places are looked for once it takes so long. */
const TOLD_AFTER_MS = 300;

/** Moving chosen events to other pitches and other places. */
export function gripActs(desk: Desk) {
  const { opened, copedent, say } = desk;
  const { events } = eventsActs(desk);
  const [first] = events;

  /** Ways to lay them; null where it was stopped, or they have changed by then. Off the page's thread; Esc stops it. */
  async function waysFor(semitones: number): Promise<GripWay[] | null> {
    if (!first) return null;
    if (placeFinder().isLaying) {
      say("Places are being looked for already. Esc stops that.");
      return null;
    }
    const { song } = opened;
    const telling = setTimeout(
      () => say("Looking for places. Esc stops it; nothing is written yet."),
      TOLD_AFTER_MS,
    );
    try {
      const key = numberKeyAt(song, first.startSec) ?? undefined;
      const { part, changes } = song;
      const ways = await placeFinder().grips({ copedent, events, part, semitones, key, changes });
      if (ways === null) say("Stopped. Nothing was written.");
      const chosenNow = eventsActs(desk.now()).events;
      if (ways !== null && !isSame(chosenNow, events)) {
        say("The events have changed, or others are chosen by now. Nothing was written.");
        return null;
      }
      return ways;
    } catch (thrown) {
      say(wordsOf(thrown));
      return null;
    } finally {
      clearTimeout(telling);
    }
  }

  function lay(way: GripWay): boolean {
    return eventsActs(desk.now()).write(way);
  }

  return {
    /** The next place where they sound the same, easiest first, and round again. */
    async next() {
      const ways = await waysFor(0);
      if (!ways) return;
      const at = ways.findIndex((way) => events.every((event) => isAt(event, way)));
      const others = ways.filter((_, index) => index !== at);
      const way = ways[(at + 1) % Math.max(1, ways.length)];
      if (!way || others.length === 0) {
        say("They lie nowhere else on this neck as a hand plays them. Nothing was changed.");
        return;
      }
      if (lay(way)) say(`Place ${ways.indexOf(way) + 1} of ${ways.length}; again for the next.`);
    },
    /** Up or down by half steps: the bar goes along, and where the neck ends, they are placed anew. */
    async transpose(semitones: number) {
      if (!first) return;
      const { edits, offNeck } = shiftedFrets(events, semitones, copedent);
      if (offNeck.length === 0) {
        eventsActs(desk).write(edits);
        return;
      }
      const [way] = (await waysFor(semitones)) ?? [null];
      if (way === null) return;
      if (!way) say("There they leave the neck, and lie nowhere else on it. Nothing was changed.");
      else if (lay(way)) say("Past the end of the neck: they are placed anew.");
    },
  };
}

function isAt(event: ShownPart, way: GripWay): boolean {
  const there = way.get(event.id);
  const textOf = ({
    strings,
    fret,
    frets = null,
    changes,
  }: Pick<ShownPart, "strings" | "fret" | "frets" | "changes">) =>
    JSON.stringify([strings, fret, frets, [...changes].sort()]);
  return there !== undefined && textOf(there) === textOf(event);
}

function isSame(some: readonly ShownPart[], others: readonly ShownPart[]): boolean {
  return JSON.stringify(some) === JSON.stringify(others);
}
