import { snapSec } from "@/lib/client/axis/snap";
import { CLIP_TYPE } from "@/lib/client/song/clipType";
import { copiesOnGuitar } from "@/lib/client/song/copiesOnGuitar";
import { type KeptClip, keepClip, keptClip } from "@/lib/client/song/keptClip";
import { movedToPart } from "@/lib/client/song/movedToPart";
import { clipOf, placedInTime, readClip } from "@/lib/client/song/PartClip";
import { standing } from "@/lib/client/song/partSelection";
import { copyPartEvents, movePartEvents, rubOutPartEvents } from "@/lib/document/commands/partMany";
import type { ShownPart, SongPart } from "@/lib/document/read/SongSnapshot";
import { textTab } from "@/lib/notation/textTab";
import type { Desk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { countWords } from "./eventsWords";
import { ONE_PART, partBeside } from "./partsActs";
import { homeAt, numberKeyAt, selectedSpan } from "./selection";

/** Copying, cutting and pasting of events, within a song and from one to another, and moving them to another part. */
export function clipActs(desk: Desk) {
  const { opened, written, guitar, copedent, grid, page, say, select, selection } = desk;
  const { song } = opened;
  const acts = eventsActs(desk);
  const { events } = acts;

  /** The chosen events as they are written; on another guitar, those that can be played there, as they are read. */
  function copied(): ShownPart[] {
    const ids = events.map(({ id }) => id);
    if (!guitar.shownOn) return standing(written.part, ids);
    return events.filter(({ id }) => !guitar.read.flags.has(id));
  }

  /** Text tab for any program, and our own form; how many events. Null where nothing is chosen that can be copied. */
  function clip(): (KeptClip & { count: number }) | null {
    const part = copied();
    const [first] = part;
    if (!first) return null;
    const text = textTab({
      title: desk.parts.areSeveral ? `${page.title} - ${desk.parts.nameOf()}` : page.title,
      copedent,
      key: homeAt(song, first.startSec),
      grid: song.grid,
      changes: song.changes,
      part,
      ...(song.tuning ? { tuningCents: song.tuning.tuningCents } : {}),
    });
    const kept = { text, json: JSON.stringify(clipOf(part, copedent, grid)) };
    keepClip(kept);
    return { ...kept, count: part.length };
  }

  /** @returns whether anything was taken away */
  function rubOutCopied(): boolean {
    const ids = copied().map(({ id }) => id);
    return desk.writePart((ctx) => rubOutPartEvents(ctx, ids)) !== null;
  }

  function paste(json: string) {
    const read = readClip(json);
    if (!read) {
      say("There are no events of a part on the clipboard. Copy some first, in this song or another.");
      return;
    }
    const span = selectedSpan(song, selection, grid);
    const atSec =
      acts.caret?.timeSec ?? span?.startSec ?? snapSec(grid, desk.snap.now().snap, desk.player.timeSec);
    const inTime = placedInTime(read.clip, atSec, grid, page.durationSec);
    const around = { key: numberKeyAt(song, atSec) ?? undefined, changes: song.changes };
    const { copies, leftOut } = copiesOnGuitar(inTime, read.copedent, copedent, around);
    const pastEndCount = read.clip.events.length - inTime.length;
    const [first] = copies;
    const ids = first
      ? desk.writePart(
          (ctx) => copyPartEvents(ctx, copies, desk.parts.atHand.id),
          copies.map(({ event }) => event.startSec),
        )
      : [];
    if (!ids) return;
    if (first) {
      const string = acts.caret?.string ?? first.event.strings[0] ?? 1;
      const endSec = Math.max(...copies.map(({ event }) => event.endSec));
      const [anchor, caret] = [atSec, endSec].map((timeSec) => ({ string, timeSec }));
      select({ kind: "events", ids, anchor: anchor!, caret: caret! });
    }
    say(
      [
        copies.length > 0 ? `${countWords(copies.length)} pasted.` : "Nothing was pasted.",
        leftOut.length > 0
          ? `${countWords(leftOut.length)} left out, which ${copedent.name} cannot play.`
          : "",
        pastEndCount > 0 ? `${countWords(pastEndCount)} left out past the end of the record.` : "",
      ]
        .filter((words) => words !== "")
        .join(" "),
    );
  }

  /** Moves the chosen events to another part, as that one's instrument plays them; what cannot go stays, and is chosen still. */
  function moveTo(part: SongPart) {
    const chosen = standing(
      written.part,
      events.map(({ id }) => id),
    );
    const [first] = chosen;
    if (!first) {
      say("Choose events of the part first.");
      return;
    }
    const around = { key: numberKeyAt(song, first.startSec) ?? undefined, changes: song.changes };
    const { laid, unplayableIds, crowdedIds } = movedToPart(chosen, copedent, part, around);
    const goes = laid.size > 0;
    if (
      goes &&
      !desk.writePart(
        (ctx) => movePartEvents(ctx, laid, part.id),
        [...laid.values()].map(({ startSec }) => startSec),
      )
    )
      return;
    const stayed = [...unplayableIds, ...crowdedIds];
    if (goes && selection?.kind === "events") {
      const { anchor, caret } = selection;
      if (stayed.length > 0) acts.choose(stayed, anchor, caret);
      else select({ kind: "caret", caret });
    }
    say(movedWords(desk.parts.nameOf(part.id), laid.size, unplayableIds.length, crowdedIds.length));
  }

  return {
    moveTo,
    /** To the part after the one in hand, or before it, round and round. */
    moveBeside(direction: -1 | 1) {
      const next = partBeside(desk.parts, direction);
      if (next) moveTo(next);
      else say(ONE_PART);
    },
    /** Into the clipboard of a copy or a cut. @returns whether anything was chosen */
    toClipboard(data: DataTransfer | null, isCut: boolean): boolean {
      const kept = data && clip();
      if (!kept) return false;
      data.setData("text/plain", kept.text);
      data.setData(CLIP_TYPE, kept.json);
      if (isCut) rubOutAndSay();
      else say(`${countWords(kept.count)} copied, as text tab too.`);
      return true;
    },
    /** @param own in our own form, empty where there is none @param text plain */
    fromClipboard({ own, text: plain }: { own: string; text: string }) {
      const kept = keptClip();
      // What was copied by its button stands on the clipboard as text alone; some systems end its lines in their own way.
      const text = plain.replaceAll("\r\n", "\n").trim();
      const isKept = kept !== null && text === kept.text.trim();
      paste(own || (isKept ? kept.json : ""));
    },
    /** By their buttons. A browser may refuse the clipboard; within Liftbook it can be pasted all the same. */
    async copy() {
      const kept = clip();
      if (!kept) return;
      const isOnClipboard = await writeText(kept.text);
      say(
        `${countWords(kept.count)} copied${isOnClipboard ? ", as text tab too" : "; paste in this browser"}.`,
      );
    },
    async cut() {
      const kept = clip();
      if (!kept) return;
      await writeText(kept.text);
      rubOutAndSay();
    },
    paste() {
      paste(keptClip()?.json ?? "");
    },
  };

  function rubOutAndSay() {
    if (!rubOutCopied()) return;
    if (acts.caret) select({ kind: "caret", caret: acts.caret });
    say(`${countWords(events.length)} cut.`);
  }
}

/** What became of events that were to go to another part, in words. */
export function movedWords(part: string, moved: number, unplayable: number, crowded: number): string {
  return [
    moved > 0 ? `${countWords(moved)} moved to ${part}.` : "Nothing was moved.",
    unplayable > 0 ? `${countWords(unplayable)} stayed, which ${part} cannot play.` : "",
    crowded > 0 ? `${countWords(crowded)} stayed, since something sounds on those strings there.` : "",
  ]
    .filter((words) => words !== "")
    .join(" ");
}

async function writeText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
