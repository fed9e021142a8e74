import { stepSnap } from "@/lib/client/axis/snap";
import { stepBeat } from "@/lib/client/axis/songGrid";
import {
  type Caret,
  endBeforeNext,
  eventBeginningAt,
  eventsBeginningAt,
  toggleChange,
  typeDigit,
} from "@/lib/client/song/partTyping";
import {
  addPartEvent,
  editPartEvent,
  inkPartEvents,
  type PartEventFields,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import { fretOn } from "@/lib/instrument/frets";
import type { Desk } from "./DeskContext";

/** The acts at the caret of the part; each does nothing where there is none. */
export function partActs(desk: Desk) {
  const { opened, selection, select, grid, copedent, axis } = desk;
  const { part } = opened.song;
  const run = desk.writePart;
  const caret = selection?.kind === "caret" ? selection.caret : null;
  const event = caret ? eventBeginningAt(part, caret) : null;
  const strings = copedent.strings.map((each) => each.number);
  const snap = desk.snap.now().snap;

  /** @returns whether it was written */
  function edit(fields: Partial<PartEventFields>): boolean {
    if (!event) return false;
    const beginningsSec = fields.startSec === undefined ? [] : [fields.startSec];
    return run((ctx) => editPartEvent(ctx, event.id, fields), beginningsSec) !== null;
  }

  /** A new event at the caret: until the next event, at most to the next place of the grid. */
  function eventHere({ string, timeSec: startSec }: Caret): PartEventFields {
    const isFree = grid === null || snap === "off";
    const nextSec = grid && snap === "off" ? stepBeat(grid, startSec, 1) : stepSnap(grid, snap, startSec, 1);
    const beatEndSec = isFree ? Math.max(nextSec, startSec + 0.5) : nextSec;
    return {
      startSec,
      endSec: Math.max(endBeforeNext(part, startSec, beatEndSec), startSec + 0.05),
      strings: [string],
      fret: 0,
      changes: [],
      articulation: "pick",
    };
  }

  /** @returns whether it was written */
  function add(fields: Partial<PartEventFields>): boolean {
    if (!caret) return false;
    const event = { ...eventHere(caret), ...fields };
    return run((ctx) => addPartEvent(ctx, event, "ink", desk.parts.atHand.id)) !== null;
  }

  /** Whether the fret at the caret is that of its string alone: under fingers, and where the event has it so. */
  const isFretOwn = copedent.stoppedBy === "fingers" || Boolean(event?.frets);

  /** The fret of the caret's string alone; a string that the event lacks joins it. */
  function ownFret(fret: number) {
    if (!event || !caret) {
      add({ fret });
      return;
    }
    const on = [...new Set([...event.strings, caret.string])].sort((a, b) => a - b);
    edit({
      strings: on,
      frets: on.map((string) => (string === caret.string ? fret : fretOn(event, string))),
    });
  }

  return {
    caret,
    event,
    isFretOwn,
    fret(fret: number) {
      if (isFretOwn) ownFret(fret);
      else if (event) edit({ fret });
      else add({ fret });
    },
    edit,
    add,
    /** What would stand at the caret, or at another place where there is none, with these fields. */
    wouldBe(fields: Partial<PartEventFields>, elsewhere: Caret): PartEventFields {
      const {
        startSec,
        endSec,
        strings,
        fret,
        changes,
        articulation,
        techniques = [],
      } = event ?? eventHere(caret ?? elsewhere);
      return { startSec, endSec, strings, fret, changes, articulation, techniques, ...fields };
    },
    /** Moves the caret along the places that times snap to (or quarters of a beat) or across the strings. */
    move(direction: "left" | "right" | "up" | "down", isFine: boolean) {
      if (!caret) return;
      if (direction === "up" || direction === "down") {
        const index = strings.indexOf(caret.string) + (direction === "up" ? -1 : 1);
        const string = strings[Math.min(strings.length - 1, Math.max(0, index))];
        if (string) select({ kind: "caret", caret: { ...caret, string } });
        return;
      }
      const sign = direction === "left" ? -1 : 1;
      const timeSec = stepSnap(grid, isFine ? "quarter" : snap, caret.timeSec, sign);
      const kept = Math.min(Math.max(0, timeSec), axis.now().durationSec);
      select({ kind: "caret", caret: { ...caret, timeSec: kept } });
    },
    /**
     * A digit of the fret. The bar lies straight, so a string written at a fret where others begin at the same
     * time and fret joins them; at another fret it stands by itself. Fingers stop each string at a fret of its own, so
     * that a string joins whatever begins there.
     * @returns the fret as typed so far, for the next digit
     */
    digit(typedSoFar: string, digit: string): string {
      if (!caret) return "";
      const typed = typeDigit(typedSoFar, digit, copedent.fretCount);
      const fret = Number(typed);
      if (copedent.stoppedBy === "fingers") {
        ownFret(fret);
        return typed;
      }
      const own = event?.strings.includes(caret.string) ? event : null;
      const joined = eventsBeginningAt(part, caret.timeSec).find(
        (each) => each.fret === fret && !each.frets && !each.strings.includes(caret.string),
      );
      if (joined && (!own || own.strings.length === 1)) {
        const strings = [...joined.strings, caret.string].sort((a, b) => a - b);
        run((ctx) => editPartEvent(ctx, joined.id, { strings }, own ? [own.id] : []));
      } else if (own?.frets) ownFret(fret);
      else if (own) run((ctx) => editPartEvent(ctx, own.id, { fret }));
      else add({ fret });
      return typed;
    },
    /** A pedal or lever by its letter. @returns whether the copedent has it */
    letter(letter: string): boolean {
      const changes = toggleChange(copedent, event?.changes ?? [], letter);
      if (changes && event) edit({ changes });
      return changes !== null;
    },
    /** Opens the list of all pedals and levers, for those that no letter engages. */
    listChanges() {
      if (copedent.changes.length === 0) desk.say(`${copedent.name} has no pedals or levers.`);
      else if (event) desk.setEngaging(true);
      else desk.say("No event begins here. Type a fret first, then put pedals and levers to it.");
    },
    ink() {
      if (event) run((ctx) => inkPartEvents(ctx, [event.id]));
    },
    /** Rubs the caret's string out of the event, or the event where it is the last. */
    rubOut() {
      if (!event || !caret || !event.strings.includes(caret.string)) return;
      const rest = event.strings.filter((string) => string !== caret.string);
      if (rest.length > 0) edit({ strings: rest });
      else run((ctx) => rubOutPartEvent(ctx, event.id));
    },
    /** Moves the start or the end of the event to the next place that times snap to. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!event || !caret) return;
      const fromSec = edge === "start" ? event.startSec : event.endSec;
      const toSec = stepSnap(grid, snap, fromSec, direction);
      if (edge === "end") edit({ endSec: toSec });
      else if (edit({ startSec: toSec })) select({ kind: "caret", caret: { ...caret, timeSec: toSec } });
    },
  };
}
