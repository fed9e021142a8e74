"use client";

import { eventBefore, lettersOn } from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { fretOn } from "@/lib/instrument/frets";
import { useDesk } from "./DeskContext";
import styles from "./part.module.css";
import { LETTER_PX, STRING_PX, stringY } from "./partLayout";

/** What is written in the part: cells such as `3` and `10A`, how long they ring, and how one comes out of another. */
export function PartCells({
  part,
  selected,
  strings,
  toPx,
}: {
  part: readonly ShownPart[];
  selected: ShownPart | null;
  strings: readonly number[];
  toPx: (timeSec: number) => number;
}) {
  const { opened, copedent, guitar } = useDesk();
  const isHeld = (event: ShownPart) => opened.others.some(({ cursor }) => cursor?.recordId === event.id);
  return part.map((event) => {
    const x = toPx(event.startSec);
    const endX = toPx(event.endSec);
    const isPencil = event.mark === "pencil";
    const before =
      event.articulation === "pick" ? null : eventBefore(opened.song.part, event.startSec, event.strings);
    const flag = guitar.read.flags.get(event.id);
    // What this guitar lacks is shown as it was written, and marked.
    const texts = event.strings.map((string) =>
      flag
        ? `${fretOn(flag.written, string)}${flag.written.changes.join("")}!`
        : String(fretOn(event, string)) + lettersOn(copedent, event.changes, string),
    );
    const widest = Math.max(...texts.map((text) => text.length)) * LETTER_PX;
    const top = Math.min(...event.strings.map((string) => stringY(strings, string))) - STRING_PX / 2;
    const bottom = Math.max(...event.strings.map((string) => stringY(strings, string))) + STRING_PX / 2;
    return (
      <g key={event.id} className={flag ? styles.cellFlagged : isPencil ? styles.cellPencil : styles.cellInk}>
        {event.strings.map((string, index) => {
          const y = stringY(strings, string);
          const text = texts[index] ?? "";
          const afterText = x + text.length * LETTER_PX + 4;
          return (
            <g key={string}>
              {endX > afterText ? (
                <line
                  className={styles.rings}
                  x1={afterText}
                  x2={Math.max(afterText, endX - 5)}
                  y1={y}
                  y2={y}
                />
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
                y={y - 9}
                width={text.length * LETTER_PX + 4}
                height="18"
              />
              <text className={styles.cell} x={x} y={y + 5}>
                {text}
              </text>
            </g>
          );
        })}
        {selected?.id === event.id || isHeld(event) ? (
          <rect
            className={selected?.id === event.id ? styles.frame : styles.frameOther}
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
}

const JOIN_PX = 20;
/** Nearer to the event before, no sign fits between the two. */
const JOIN_FROM_PX = 22;

/**
 * How an event comes out of the one before: a slide leans the way the bar goes, a press steps up, a release
 * steps down, both at once lean and step.
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
    event.articulation === "slide"
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
