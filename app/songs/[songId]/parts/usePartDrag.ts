import { type PointerEvent, useEffect, useRef, useState } from "react";
import { snapSec } from "@/lib/client/axis/snap";
import { pxToSec, scrollAxis } from "@/lib/client/axis/timeAxis";
import { movedEvents, type Shift, shiftBetween, stretchedEvents } from "@/lib/client/song/movedEvents";
import { eventsInBox } from "@/lib/client/song/partSelection";
import type { Caret } from "@/lib/client/song/partTyping";
import { type Restrung, restrungEvents } from "@/lib/client/song/restrungEvents";
import { SAME_MOMENT_SEC } from "@/lib/client/song/sameMoment";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { type Desk, useDesk } from "./DeskContext";
import { type EventEdits, eventsActs } from "./eventsActs";
import { isOwnTarget } from "./ownTarget";
import { hitPart, type PartHit } from "./partHit";
import { stringPx } from "./partLayout";
import { restrungWords } from "./restrungWords";
import { chosenEvents } from "./selection";
import { type DragPoint, useLaneDrag } from "./useLaneDrag";

/** A press that moves less than this is a click; a finger trembles more. */
const DRAG_PX = { mouse: 4, touch: 10 };
/** A finger that stays for so long takes hold of an event, or begins a box. */
const LONG_PRESS_MS = 450;

/** Drawn across strings by no more than this along the axis, events keep their times. */
const UPRIGHT_PX = 14;

interface Press {
  pointerId: number;
  lane: HTMLElement;
  /** Where it began, on the strings and in pixels of the lane, and where it is now. */
  from: Caret;
  fromPx: number;
  fromY: number;
  lastPx: number;
  hit: PartHit | null;
  /** Whether it began on something that answers clicks itself. */
  isOnOwn: boolean;
  /** What a drag takes along. */
  dragged: readonly ShownPart[];
  as: "click" | "scroll" | "box" | "move" | "stretch";
}

/** What is being drawn by a drag, before it is done. */
export interface PartDraft {
  /** New times of what is moved or stretched, and other strings. */
  edits: EventEdits | null;
  /** By what they are moved; null where only ends are, or strings. */
  moved: Shift | null;
  restrung: Restrung | null;
  box: { from: Caret; to: Caret } | null;
}

const NOTHING: PartDraft = { edits: null, moved: null, restrung: null, box: null };

/**
 * Pointer acts of the part: a click sets the caret; a drag from an event moves it with all that are chosen, along the axis
 * and across the strings, from its end stretches them, from an empty place draws a box about events. Times snap as the page
 * has it; Alt leaves the snap. A finger drags the lanes along, unless it begins on what is chosen or has stayed for a moment.
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
  const drag = useLaneDrag(leave);

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

  const pxOf = (lane: HTMLElement, { clientX }: DragPoint) => clientX - lane.getBoundingClientRect().left;
  const yOf = (lane: HTMLElement, { clientY }: DragPoint) => clientY - lane.getBoundingClientRect().top;
  const placeOf = (lane: HTMLElement, at: DragPoint): Caret => {
    const row = Math.floor(yOf(lane, at) / stringPx());
    const string = strings[Math.min(strings.length - 1, Math.max(0, row))] ?? 1;
    return { string, timeSec: pxToSec(axis.now(), drag.within(pxOf(lane, at))) };
  };
  const hitAt = (event: PointerEvent<HTMLElement>) =>
    hitPart(inView, placeOf(event.currentTarget, event), axis.now().pxPerSec, event.pointerType === "touch");

  /** With all that are chosen, where the event is among them. */
  function draggedWith(event: ShownPart): readonly ShownPart[] {
    const chosen = chosenEvents(desk.opened.song, desk.selection);
    return chosen.some(({ id }) => id === event.id) ? chosen : [event];
  }

  function draftOf(begun: Press, at: DragPoint): PartDraft {
    const { as, hit, dragged, from, lane } = begun;
    const to = placeOf(lane, at);
    if (as === "box") return { ...NOTHING, box: { from, to } };
    if (!hit) return NOTHING;
    const { grid } = desk;
    const snap = at.altKey ? "off" : desk.snap.now().snap;
    const edge = as === "stretch" ? hit.event.endSec : hit.event.startSec;
    const shift = shiftBetween(
      grid,
      snap === "off",
      edge,
      snapSec(grid, snap, edge + to.timeSec - from.timeSec),
    );
    if (as === "stretch") return { ...NOTHING, edits: stretchedEvents(dragged, shift) };
    const rows = Math.round((yOf(lane, at) - begun.fromY) / stringPx());
    const { part } = desk.opened.song;
    const restrung = rows === 0 ? null : restrungEvents(dragged, rows, desk.copedent, part);
    const alongPx = Math.abs(to.timeSec - from.timeSec) * axis.now().pxPerSec;
    if (restrung && alongPx < UPRIGHT_PX) return { ...NOTHING, edits: restrung.edits, restrung };
    const times = movedEvents(dragged, shift, axis.now().durationSec);
    const edits =
      times &&
      new Map([...times].map(([id, fields]) => [id, { ...fields, ...restrung?.edits.get(id) }] as const));
    return { edits, moved: shift, restrung, box: null };
  }

  function stay(begun: Press) {
    if (press.current !== begun || begun.as !== "click") return;
    navigator.vibrate?.(10);
    begun.lane.setPointerCapture(begun.pointerId);
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

  function finish(begun: Press, { edits, moved, restrung, box }: PartDraft) {
    if (box) {
      const { grid } = desk;
      const corner = (at: Caret) => ({ ...at, timeSec: snapSec(grid, desk.snap.now().snap, at.timeSec) });
      const ids = eventsInBox(desk.opened.song.part, box.from, box.to, strings);
      eventsActs(desk.now()).choose(ids, corner(box.from), corner(box.to));
    }
    if (!edits || !begun.hit) return;
    const now = desk.now();
    if (restrung && clashes(now.opened.song.part, edits)) {
      now.say("Another event begins there on the same string. Nothing was moved.");
      return;
    }
    const isChosen = chosenEvents(now.opened.song, now.selection).some(({ id }) => edits.has(id));
    const acts = eventsActs(isChosen ? now : withCaretOn(now, begun.hit.event, begun.from.string));
    const isDone = acts.write(edits, { shift: moved ?? undefined, rows: restrung?.rows });
    if (isDone && restrung) now.say(restrungWords(restrung, now.copedent, begun.from));
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

  function wayPx({ lane, fromPx, fromY }: Press, at: DragPoint): number {
    return Math.hypot(pxOf(lane, at) - fromPx, yOf(lane, at) - fromY);
  }

  /** Whether the lanes went along meanwhile. */
  function hasScrolled({ from, fromPx }: Press): boolean {
    return Math.abs(pxToSec(axis.now(), fromPx) - from.timeSec) > SAME_MOMENT_SEC;
  }

  function leave() {
    clearTimeout(staying.current);
    drag.end();
    press.current = null;
    setDraft(NOTHING);
  }

  return {
    draft,
    track,
    handlers: {
      onPointerDown(event: PointerEvent<HTMLElement>) {
        if (event.button !== 0) return;
        const lane = event.currentTarget;
        const isOnOwn = isOwnTarget(event.target, "button");
        // What answers clicks itself loses them to whoever holds the pointer; so that is held once it is dragged.
        if (!isOnOwn) lane.setPointerCapture(event.pointerId);
        const hit = isOnOwn ? null : hitAt(event);
        const px = pxOf(lane, event);
        const begun: Press = {
          ...{ pointerId: event.pointerId, lane, from: placeOf(lane, event), hit, isOnOwn, as: "click" },
          ...{ fromPx: px, fromY: yOf(lane, event), lastPx: px },
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
        if (!isTouch && event.buttons === 0) return leave();
        const px = pxOf(begun.lane, event);
        if (begun.as === "click" && wayPx(begun, event) >= DRAG_PX[isTouch ? "touch" : "mouse"]) {
          clearTimeout(staying.current);
          begun.as = dragAs(desk, begun, isTouch);
          begun.lane.setPointerCapture(event.pointerId);
        }
        if (begun.as === "scroll") axis.change((now) => scrollAxis(now, begun.lastPx - px));
        else if (begun.as !== "click") {
          const { clientX, clientY, altKey } = event;
          const draw = () => setDraft(draftOf(begun, { clientX, clientY, altKey }));
          draw();
          drag.follow(px, begun.fromPx, draw);
        }
        begun.lastPx = px;
      },
      onPointerUp(event: PointerEvent<HTMLElement>) {
        const begun = press.current;
        leave();
        if (begun?.pointerId !== event.pointerId) return;
        if (begun.as === "click") {
          if (!begun.isOnOwn) click(event, begun);
        } else if (begun.as !== "scroll" && (hasScrolled(begun) || wayPx(begun, event) >= DRAG_PX.mouse))
          finish(begun, draftOf(begun, event));
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

/** Whether something of the part that stays where it is begins where one of them would. */
function clashes(part: readonly ShownPart[], edits: EventEdits): boolean {
  const staying = part.filter(({ id }) => !edits.has(id));
  return part.some((event) => {
    const fields = edits.get(event.id);
    if (!fields) return false;
    const { startSec, strings } = { ...event, ...fields };
    return staying.some(
      (other) =>
        Math.abs(other.startSec - startSec) < SAME_MOMENT_SEC &&
        other.strings.some((string) => strings.includes(string)),
    );
  });
}

function cursorOver({ mayWritePart }: Desk, hit: PartHit | null): string {
  if (!hit || !mayWritePart) return "";
  return hit.zone === "end" ? "ew-resize" : "grab";
}

/** The desk as it is with the caret on an event. */
function withCaretOn(desk: Desk, event: ShownPart, string: number): Desk {
  return { ...desk, selection: { kind: "caret", caret: { string, timeSec: event.startSec } } };
}
