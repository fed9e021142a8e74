import { type PointerEvent, useEffect, useRef, useState } from "react";
import { snapSec } from "@/lib/client/axis/snap";
import { pxToSec, scrollAxis } from "@/lib/client/axis/timeAxis";
import { movedEvents, type Shift, shiftBetween, stretchedEvents } from "@/lib/client/song/movedEvents";
import { eventsInBox } from "@/lib/client/song/partSelection";
import type { Caret } from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { type Desk, useDesk } from "./DeskContext";
import { type EventEdits, eventsActs } from "./eventsActs";
import { hitPart, type PartHit } from "./partHit";
import { STRING_PX } from "./partLayout";
import { chosenEvents } from "./selection";

/** A press that moves less than this is a click; a finger trembles more. */
const DRAG_PX = { mouse: 4, touch: 10 };
/** A finger that stays for so long takes hold of an event, or begins a box. */
const LONG_PRESS_MS = 450;

interface Press {
  pointerId: number;
  /** Where it began, and where it is now. */
  from: Caret;
  lastPx: number;
  fromPx: number;
  hit: PartHit | null;
  /** What a drag takes along. */
  dragged: readonly ShownPart[];
  as: "click" | "scroll" | "box" | "move" | "stretch";
}

/** What is being drawn by a drag, before it is done. */
export interface PartDraft {
  /** New times of what is moved or stretched. */
  edits: EventEdits | null;
  /** By what they are moved; null where only ends are. */
  moved: Shift | null;
  box: { from: Caret; to: Caret } | null;
}

const NOTHING: PartDraft = { edits: null, moved: null, box: null };

/**
 * Pointer acts of the part: a click sets the caret; a drag from an event moves it with all that are chosen, from its end
 * stretches them, from an empty place draws a box about events. Times snap as the page has it; Alt leaves the snap. A
 * finger drags the lanes along, unless it begins on what is chosen or has stayed for a moment.
 * @param inView events that are drawn
 * @param tap what a click does
 */
export function usePartDrag(
  inView: readonly ShownPart[],
  strings: readonly number[],
  tap: (event: PointerEvent<HTMLElement>) => void,
) {
  const desk = useDesk();
  const { axis } = desk;
  const track = useRef<HTMLDivElement>(null);
  const press = useRef<Press | null>(null);
  const staying = useRef<ReturnType<typeof setTimeout>>(undefined);
  const [draft, setDraft] = useState<PartDraft>(NOTHING);

  useEffect(() => {
    const element = track.current;
    // What was taken hold of goes with the finger; the browser must not scroll by it. React listens passively.
    const hold = (event: TouchEvent) => {
      const as = press.current?.as;
      if (as === "move" || as === "stretch" || as === "box") event.preventDefault();
    };
    element?.addEventListener("touchmove", hold, { passive: false });
    return () => {
      element?.removeEventListener("touchmove", hold);
      clearTimeout(staying.current);
    };
  }, []);

  const pxOf = (event: PointerEvent<HTMLElement>) =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const placeOf = (event: PointerEvent<HTMLElement>): Caret => {
    const row = Math.floor((event.clientY - event.currentTarget.getBoundingClientRect().top) / STRING_PX);
    const string = strings[Math.min(strings.length - 1, Math.max(0, row))] ?? 1;
    return { string, timeSec: pxToSec(axis.now(), pxOf(event)) };
  };
  const hitAt = (event: PointerEvent<HTMLElement>) =>
    hitPart(inView, placeOf(event), axis.now().pxPerSec, event.pointerType === "touch");

  /** With all that are chosen, where the event is among them. */
  function draggedWith(event: ShownPart): readonly ShownPart[] {
    const chosen = chosenEvents(desk.opened.song, desk.selection);
    return chosen.some(({ id }) => id === event.id) ? chosen : [event];
  }

  function draftOf(begun: Press, to: Caret, isFree: boolean): PartDraft {
    const { as, hit, dragged, from } = begun;
    if (as === "box") return { ...NOTHING, box: { from, to } };
    if (!hit) return NOTHING;
    const { grid } = desk;
    const snap = isFree ? "off" : desk.snap.now().snap;
    const edge = as === "stretch" ? hit.event.endSec : hit.event.startSec;
    const toSec = snapSec(grid, snap, edge + to.timeSec - from.timeSec);
    const shift = shiftBetween(grid, snap === "off", edge, toSec);
    const edits =
      as === "stretch"
        ? stretchedEvents(dragged, shift)
        : movedEvents(dragged, shift, axis.now().durationSec);
    return { edits, moved: as === "move" ? shift : null, box: null };
  }

  function stay(begun: Press) {
    if (press.current !== begun || begun.as !== "click") return;
    navigator.vibrate?.(10);
    const { hit, from } = begun;
    if (!hit) {
      begun.as = "box";
      setDraft({ ...NOTHING, box: { from, to: from } });
      return;
    }
    const acts = eventsActs(desk.now());
    const at = { string: from.string, timeSec: hit.event.startSec };
    if (!acts.events.some(({ id }) => id === hit.event.id) || !acts.isMany) {
      if (acts.isMany) acts.toggle(hit.event, at);
      else acts.choose([hit.event.id], at, at);
    }
    begun.as = desk.mayWritePart ? "move" : "scroll";
    begun.dragged = acts.isMany ? [...new Set([...acts.events, hit.event])] : [hit.event];
  }

  function finish(begun: Press, { edits, moved, box }: PartDraft) {
    if (box) {
      const { grid } = desk;
      const corner = (at: Caret) => ({ ...at, timeSec: snapSec(grid, desk.snap.now().snap, at.timeSec) });
      const ids = eventsInBox(desk.opened.song.part, box.from, box.to, strings);
      eventsActs(desk.now()).choose(ids, corner(box.from), corner(box.to));
    }
    if (!edits || !begun.hit) return;
    const now = desk.now();
    const isChosen = chosenEvents(now.opened.song, now.selection).some(({ id }) => edits.has(id));
    eventsActs(isChosen ? now : withCaretOn(now, begun.hit.event, begun.from.string)).write(
      edits,
      moved ?? undefined,
    );
  }

  function click(event: PointerEvent<HTMLElement>, { hit, from }: Press) {
    const acts = eventsActs(desk.now());
    const isTouch = event.pointerType === "touch";
    if (event.shiftKey && acts.caret) {
      const { selection } = desk.now();
      acts.box(selection?.kind === "events" ? selection.anchor : acts.caret, from);
    } else if (hit && (event.ctrlKey || event.metaKey || (isTouch && acts.isMany)))
      acts.toggle(hit.event, { string: from.string, timeSec: hit.event.startSec });
    else tap(event);
  }

  function leave() {
    clearTimeout(staying.current);
    press.current = null;
    setDraft(NOTHING);
  }

  return {
    draft,
    track,
    handlers: {
      onPointerDown(event: PointerEvent<HTMLElement>) {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        const hit = hitAt(event);
        const px = pxOf(event);
        const begun: Press = {
          ...{ pointerId: event.pointerId, from: placeOf(event), fromPx: px, lastPx: px, hit, as: "click" },
          dragged: hit ? draggedWith(hit.event) : [],
        };
        press.current = begun;
        clearTimeout(staying.current);
        if (event.pointerType === "touch") staying.current = setTimeout(() => stay(begun), LONG_PRESS_MS);
      },
      onPointerMove(event: PointerEvent<HTMLElement>) {
        const begun = press.current;
        const isTouch = event.pointerType === "touch";
        if (!begun) {
          if (!isTouch) event.currentTarget.style.cursor = cursorOver(desk, hitAt(event));
          return;
        }
        if (begun.pointerId !== event.pointerId) return;
        const px = pxOf(event);
        if (begun.as === "click" && Math.abs(px - begun.fromPx) >= DRAG_PX[isTouch ? "touch" : "mouse"]) {
          clearTimeout(staying.current);
          begun.as = dragAs(desk, begun, isTouch);
        }
        if (begun.as === "scroll") axis.change((now) => scrollAxis(now, begun.lastPx - px));
        else if (begun.as !== "click") setDraft(draftOf(begun, placeOf(event), event.altKey));
        begun.lastPx = px;
      },
      onPointerUp(event: PointerEvent<HTMLElement>) {
        const begun = press.current;
        leave();
        if (!begun) return;
        if (begun.as === "click") click(event, begun);
        else if (begun.as !== "scroll" && Math.abs(pxOf(event) - begun.fromPx) >= DRAG_PX.mouse)
          finish(begun, draftOf(begun, placeOf(event), event.altKey));
      },
      onPointerCancel: leave,
      onContextMenu(event: { preventDefault(): void }) {
        // A long press on a touch screen asks for the browser's menu too.
        if (press.current && press.current.as !== "click") event.preventDefault();
      },
    },
  };
}

/** What a drag becomes by where it began. */
function dragAs({ opened, selection, mayWritePart }: Desk, { hit }: Press, isTouch: boolean): Press["as"] {
  const isChosen = chosenEvents(opened.song, selection).some(({ id }) => id === hit?.event.id);
  if (isTouch && !(isChosen && mayWritePart)) return "scroll";
  if (!hit || !mayWritePart) return "box";
  return hit.zone === "end" ? "stretch" : "move";
}

function cursorOver({ mayWritePart }: Desk, hit: PartHit | null): string {
  if (!hit || !mayWritePart) return "";
  return hit.zone === "end" ? "ew-resize" : "grab";
}

/** The desk as it is with the caret on an event. */
function withCaretOn(desk: Desk, event: ShownPart, string: number): Desk {
  return { ...desk, selection: { kind: "caret", caret: { string, timeSec: event.startSec } } };
}
