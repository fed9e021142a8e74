import { snapParts, stepSnap } from "@/lib/client/axis/snap";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import {
  movedEvents,
  type Shift,
  shiftBetween,
  shifted,
  stretchedEvents,
} from "@/lib/client/song/movedEvents";
import { eventsInBox, toggled } from "@/lib/client/song/partSelection";
import {
  type Caret,
  eventBefore,
  soundingArticulation,
  stagesOf,
  toggleChange,
} from "@/lib/client/song/partTyping";
import { pencilledIds } from "@/lib/client/song/pencilledIds";
import { quantised } from "@/lib/client/song/quantised";
import { editPartEvent, inkPartEvents, type PartEventFields } from "@/lib/document/commands/part";
import { editPartEvents, rubOutPartEvents } from "@/lib/document/commands/partMany";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Articulation } from "@/lib/notation/PartEvent";
import type { Technique } from "@/lib/notation/Technique";
import type { Desk } from "./DeskContext";
import { countWords } from "./eventsWords";
import { chosenEvents, selectedSpan } from "./selection";

export type EventEdits = ReadonlyMap<string, Partial<PartEventFields>>;

/** How far events go in time, and by how many strings; the caret goes along. */
export interface Moved {
  shift?: Shift | undefined;
  rows?: number | undefined;
}

/** The acts on the events of the part that are chosen, one or several; each is one step of undo. */
export function eventsActs(desk: Desk) {
  const { opened, selection, select, grid, copedent, axis, say } = desk;
  const { part } = opened.song;
  const snap = desk.snap.now().snap;
  const strings = copedent.strings.map(({ number }) => number);
  const events = chosenEvents(opened.song, selection);
  const isMany = selection?.kind === "events";
  const caret = isMany || selection?.kind === "caret" ? selection.caret : null;
  const anchor = isMany ? selection.anchor : caret;

  function choose(ids: readonly string[], from: Caret, to: Caret) {
    select({ kind: "events", ids, anchor: from, caret: to });
  }

  function onString(string: number, rows: number): number {
    const row = Math.min(strings.length - 1, Math.max(0, strings.indexOf(string) + rows));
    return strings[row] ?? string;
  }

  /** Events that were written anew go by other ids; what was chosen stays so. */
  function keepChosen(touched: readonly string[], { shift, rows = 0 }: Moved) {
    if (!isMany || !caret || !anchor) return;
    const moved = ({ string, timeSec }: Caret): Caret => ({
      string: onString(string, rows),
      timeSec: shift ? Math.max(0, shifted(timeSec, shift)) : timeSec,
    });
    choose([...new Set([...selection.ids, ...touched])], moved(anchor), moved(caret));
  }

  /** Changes the chosen events: one as any edit does, several each in the mark that it has. @returns whether it was done */
  function write(edits: EventEdits, by: Moved = {}): boolean {
    const [only] = events;
    if (edits.size === 0 || !only) return false;
    const ids = desk.writePart(
      (ctx) => (isMany ? editPartEvents(ctx, edits) : editPartEvent(ctx, only.id, edits.get(only.id) ?? {})),
      [...edits.values()].flatMap(({ startSec }) => startSec ?? []),
    );
    if (!ids) return false;
    keepChosen(ids, by);
    const startSec = edits.get(only.id)?.startSec;
    if (!isMany && caret && (startSec !== undefined || by.rows)) {
      const { string, timeSec } = caret;
      select({
        kind: "caret",
        caret: { string: onString(string, by.rows ?? 0), timeSec: startSec ?? timeSec },
      });
    }
    return true;
  }

  function writeEach(fieldsOf: (event: ShownPart) => Partial<PartEventFields>): boolean {
    return write(new Map(events.map((event) => [event.id, fieldsOf(event)])));
  }

  function move(by: Shift) {
    const edits = movedEvents(events, by, axis.now().durationSec);
    if (edits) write(edits, { shift: by });
    else if (events.length > 0) say("There they would leave the record. Nothing was moved.");
  }

  return {
    events,
    isMany,
    caret,
    choose,
    write,
    move,
    /** Moves the other corner of what is chosen, from the caret on. */
    extend(direction: "left" | "right" | "up" | "down") {
      if (!caret || !anchor) return;
      const string = onString(caret.string, direction === "up" ? -1 : direction === "down" ? 1 : 0);
      const sign = direction === "left" ? -1 : direction === "right" ? 1 : 0;
      const timeSec = sign === 0 ? caret.timeSec : stepSnap(grid, snap, caret.timeSec, sign);
      const to = { string, timeSec: Math.min(timeSec, axis.now().durationSec) };
      choose(eventsInBox(part, anchor, to, strings), anchor, to);
    },
    /** All events between two corners. */
    box(from: Caret, to: Caret) {
      choose(eventsInBox(part, from, to, strings), from, to);
    },
    /** Takes one event more, or one less. */
    toggle(event: ShownPart, at: Caret) {
      const ids = events.map(({ id }) => id);
      choose(toggled(ids, event.id), anchor ?? at, at);
    },
    /** All events of the selected stretch; of the whole part where none is. */
    all() {
      const span = selection === null || caret !== null ? null : selectedSpan(opened.song, selection, grid);
      const wanted = span ? beginningWithin(part, span) : part;
      const [first, last] = [wanted[0], wanted.at(-1)];
      if (!first || !last) {
        say("No event of the part begins here.");
        return;
      }
      choose(
        wanted.map(({ id }) => id),
        { string: strings[0] ?? 1, timeSec: first.startSec },
        { string: strings.at(-1) ?? 1, timeSec: last.startSec },
      );
    },
    /** Back to the caret alone. */
    leave() {
      if (caret) select({ kind: "caret", caret });
    },
    /** Moves all of them to the next place of the grid. */
    step(direction: -1 | 1) {
      const [first] = events;
      if (!first) return;
      const toSec = stepSnap(grid, snap, first.startSec, direction);
      move(shiftBetween(grid, snap === "off", first.startSec, toSec));
    },
    /** Moves all of their ends alike. */
    stretch(direction: -1 | 1) {
      const last = events.at(-1);
      if (!last) return;
      const toSec = stepSnap(grid, snap, last.endSec, direction);
      write(stretchedEvents(events, shiftBetween(grid, snap === "off", last.endSec, toSec)));
    },
    quantise() {
      const parts = snapParts(grid, snap);
      if (!grid || parts === null) {
        say("Choose first to what times snap: beats, or parts of them. Nothing was changed.");
        return;
      }
      const { edits, leftIds } = quantised(events, part, grid, parts);
      if (edits.size > 0 && !write(edits)) return;
      const left =
        leftIds.length > 0
          ? ` ${countWords(leftIds.length)} left: another begins there on the same string.`
          : "";
      say(
        edits.size > 0
          ? `${countWords(edits.size)} drawn to the grid.${left}`
          : `Nothing had to be moved.${left}`,
      );
    },
    /** Gives all of them a technique; takes it from all where all have it. */
    technique(technique: Technique) {
      const isOnAll = events.every(({ techniques }) => techniques?.includes(technique));
      writeEach(({ techniques = [] }) => ({
        techniques: isOnAll
          ? techniques.filter((each) => each !== technique)
          : [...new Set([...techniques, technique])],
      }));
    },
    /** All of them slid, pressed or tied; picked where all are so already. */
    articulate(kind: "slide" | "press" | "tie") {
      const wanted = events.map((event): Articulation => {
        if (kind === "tie") return "tie";
        const before = eventBefore(part, event.startSec, event.strings);
        const sounding = kind === "slide" && !before ? "slide" : soundingArticulation(before, event);
        return kind === "slide" && sounding !== "slidePress" ? "slide" : sounding;
      });
      const isSo = events.every(({ articulation }, at) => articulation === wanted[at]);
      write(new Map(events.map(({ id }, at) => [id, { articulation: isSo ? "pick" : wanted[at]! }])));
    },
    /** A pedal or lever by its letter, on all as it comes to be on the first. @returns whether the copedent has it */
    letter(letter: string): boolean {
      const [first] = events;
      const change = copedent.changes.find(({ id }) => id.toLowerCase() === letter.toLowerCase());
      if (!first || !change) return false;
      const next = toggleChange(copedent, first.changes, letter) ?? [];
      const stages = stagesOf(change);
      const engaged = next.filter((id) => stages.includes(id));
      writeEach(({ changes }) => ({
        changes: [...changes.filter((id) => !stages.includes(id)), ...engaged],
      }));
      return true;
    },
    ink() {
      const ids = pencilledIds(events);
      if (ids.length > 0) desk.writePart((ctx) => inkPartEvents(ctx, ids));
    },
    rubOut() {
      if (events.length === 0) return;
      const gone = desk.writePart((ctx) =>
        rubOutPartEvents(
          ctx,
          events.map(({ id }) => id),
        ),
      );
      if (!gone || !caret) return;
      select({ kind: "caret", caret });
      say(`${countWords(events.length)} rubbed out.`);
    },
  };
}
