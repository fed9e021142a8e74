"use client";

import { memo } from "react";
import { type DrawnStretch, drawnPx } from "@/lib/client/axis/timeAxis";
import type { PartOnGuitar } from "@/lib/client/song/partOnGuitar";
import { eventBefore, lettersOn } from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { fretOn } from "@/lib/instrument/frets";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { soundedEnd } from "@/lib/notation/soundedEnd";
import { writeTechniques } from "@/lib/notation/tabCell";
import { useDesk } from "./DeskContext";
import styles from "./part.module.css";
import { letterPx, stringPx, stringY } from "./partLayout";

/** What is written in the part: cells such as `3` and `10A`, how long they ring, and how one comes out of another. */
export function PartCells({
  part,
  of: { events, copedent, flags },
  chosen,
  strings,
  drawing,
}: {
  /** What is drawn now, in order of time. */
  part: readonly ShownPart[];
  /** The whole part, the guitar on which it is read, and what of it cannot be played there. */
  of: { events: readonly ShownPart[]; copedent: Copedent; flags: PartOnGuitar["flags"] };
  chosen: readonly ShownPart[];
  strings: readonly number[];
  drawing: DrawnStretch;
}) {
  const { opened } = useDesk();
  const chosenIds = new Set(chosen.map(({ id }) => id));
  const heldIds = new Set(opened.others.map(({ cursor }) => cursor?.recordId));
  return part.map((event) => (
    <PartCell
      key={event.id}
      event={event}
      before={event.articulation === "pick" ? null : eventBefore(events, event.startSec, event.strings)}
      written={flags.get(event.id)?.written ?? null}
      strings={strings}
      copedent={copedent}
      drawing={drawing}
      frame={chosenIds.has(event.id) ? "own" : heldIds.has(event.id) ? "other" : null}
    />
  ));
}

/** One event, drawn anew only when it, its guitar or the drawn stretch changes, or when it is taken in hand or let go. */
const PartCell = memo(function PartCell({
  event,
  before,
  written,
  strings,
  copedent,
  drawing,
  frame,
}: {
  event: ShownPart;
  before: ShownPart | null;
  /** How it was written, where the guitar that is seen cannot play it. */
  written: PartEvent | null;
  strings: readonly number[];
  copedent: Copedent;
  drawing: DrawnStretch;
  frame: "own" | "other" | null;
}) {
  const toPx = drawnPx(drawing);
  const x = toPx(event.startSec);
  const endX = toPx(event.endSec);
  const silentX = toPx(soundedEnd(event));
  const isPencil = event.mark === "pencil";
  // What this guitar lacks is shown as it was written, and marked.
  const texts = event.strings.map((string) =>
    written
      ? `${fretOn(written, string)}${written.changes.join("")}!`
      : cellText(event, String(fretOn(event, string)) + lettersOn(copedent, event.changes, string)),
  );
  const [letter, row] = [letterPx(), stringPx()];
  const widest = Math.max(...texts.map((text) => text.length)) * letter;
  const top = Math.min(...event.strings.map((string) => stringY(strings, string))) - row / 2;
  const bottom = Math.max(...event.strings.map((string) => stringY(strings, string))) + row / 2;
  return (
    <g className={written ? styles.cellFlagged : isPencil ? styles.cellPencil : styles.cellInk}>
      {event.strings.map((string, index) => {
        const y = stringY(strings, string);
        const text = texts[index] ?? "";
        const afterText = x + text.length * letter + 4;
        return (
          <g key={string}>
            {silentX > afterText ? (
              <path
                className={styles.rings}
                d={ringPath(event, y, afterText, Math.max(afterText, silentX - 5))}
              />
            ) : null}
            {frame === "own" && endX - x > HANDLE_FROM_PX ? (
              <rect className={styles.handle} x={endX - 9} y={y - 7} width="5" height="14" rx="2" />
            ) : null}
            {before?.strings.includes(string) && x - toPx(before.startSec) >= JOIN_FROM_PX ? (
              <Join
                event={event}
                before={before}
                string={string}
                x={x - 4}
                room={x - 6 - toPx(before.startSec)}
                y={y}
              />
            ) : null}
            <rect
              className={styles.cellGround}
              x={x - 2}
              y={y - 0.45 * row}
              width={text.length * letter + 4}
              height={0.9 * row}
            />
            <text className={styles.cell} x={x} y={y + 0.25 * row}>
              {text}
            </text>
          </g>
        );
      })}
      {frame ? (
        <rect
          className={frame === "own" ? styles.frame : styles.frameOther}
          x={x - 6}
          y={top}
          width={widest + 12}
          height={bottom - top}
          rx="4"
        />
      ) : null}
    </g>
  );
});

/** What is tied stands in brackets, as in the tab; behind the place stand the signs of techniques. */
function cellText({ articulation, techniques }: ShownPart, place: string): string {
  const text = place + writeTechniques(techniques);
  return articulation === "tie" ? `(${text})` : text;
}

const WAVE_PX = 5;
/** Shorter, an event has no room for a handle at its end. */
const HANDLE_FROM_PX = 40;

/** How it rings: a line; a wave where it is shaken; with a stop at its end where it is blocked. */
function ringPath({ techniques = [] }: ShownPart, y: number, fromX: number, toX: number): string {
  const waves = Math.floor((toX - fromX) / (2 * WAVE_PX));
  const wave = `q${WAVE_PX / 2} -6 ${WAVE_PX} 0t${WAVE_PX} 0`;
  const line = techniques.includes("vibrato")
    ? `M${fromX} ${y}${wave.repeat(waves)}`
    : `M${fromX} ${y}H${toX}`;
  return techniques.includes("block") ? `${line}M${toX} ${y - 6}V${y + 6}` : line;
}

const JOIN_PX = 20;
/** Nearer to the event before, no sign fits between the two. */
const JOIN_FROM_PX = 22;

/**
 * How an event comes out of the one before: a slide leans the way the bar goes, a press steps up, a release
 * steps down, both at once lean and step; a tie bends beneath.
 */
function Join({
  event,
  before,
  string,
  x,
  room,
  y,
}: {
  event: ShownPart;
  before: ShownPart;
  string: number;
  /** Right end of the sign. */
  x: number;
  /** Pixels from the event before; the sign takes no more than half of them. */
  room: number;
  y: number;
}) {
  const width = Math.max(8, Math.min(JOIN_PX, room / 2));
  const from = x - width;
  const lean = fretOn(event, string) >= fretOn(before, string) ? 4 : -4;
  const step = event.articulation === "release" ? 4 : -4;
  const middle = from + width / 2;
  const path =
    event.articulation === "tie"
      ? `M${from} ${y + 3}Q${middle} ${y + 9} ${x} ${y + 3}`
      : event.articulation === "slide"
        ? `M${from} ${y + lean}L${x} ${y - lean}`
        : event.articulation === "slidePress"
          ? `M${from} ${y + lean}L${middle} ${y}V${y + step}H${x}`
          : `M${from} ${y - step}H${middle}V${y + step}H${x}`;
  return (
    <>
      <rect className={styles.cellGround} x={from - 2} y={y - 7} width={width + 4} height="14" />
      <path className={styles.joins} d={path} />
    </>
  );
}
