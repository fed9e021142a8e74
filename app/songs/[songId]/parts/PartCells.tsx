"use client";

import { eventBefore, lettersOn } from "@/lib/client/song/partTyping";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";
import styles from "./lanes.module.css";
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
  const { opened, copedent } = useDesk();
  return part.map((event) => {
    const x = toPx(event.startSec);
    const endX = toPx(event.endSec);
    const isPencil = event.mark === "pencil";
    const before =
      event.articulation === "pick" ? null : eventBefore(opened.song.part, event.startSec, event.strings);
    const texts = event.strings.map(
      (string) => String(event.fret) + lettersOn(copedent, event.changes, string),
    );
    const widest = Math.max(...texts.map((text) => text.length)) * LETTER_PX;
    const top = Math.min(...event.strings.map((string) => stringY(strings, string))) - STRING_PX / 2;
    const bottom = Math.max(...event.strings.map((string) => stringY(strings, string))) + STRING_PX / 2;
    return (
      <g key={event.id} className={isPencil ? styles.cellPencil : styles.cellInk}>
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
              {before?.strings.includes(string) ? (
                <path
                  className={styles.joins}
                  d={joinPath(event, before, Math.max(toPx(before.startSec) + 22, x - 40), x - 4, y)}
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
        {selected?.id === event.id ? (
          <rect className={styles.frame} x={x - 6} y={top} width={widest + 12} height={bottom - top} rx="4" />
        ) : null}
      </g>
    );
  });
}

/** A slide leans the way the bar goes; a press steps up at its end, a release steps down. */
function joinPath(event: ShownPart, before: ShownPart, fromX: number, toX: number, y: number): string {
  const up = event.articulation === "release" ? 1 : -1;
  switch (event.articulation) {
    case "slide": {
      const lean = event.fret >= before.fret ? 4 : -4;
      return `M${fromX} ${y + lean}L${toX} ${y - lean}`;
    }
    case "slidePress": {
      const lean = event.fret >= before.fret ? 4 : -4;
      return `M${fromX} ${y + lean}L${toX - 8} ${y - lean}h8v${up * 4}`;
    }
    default:
      return `M${fromX} ${y - up * 3}H${toX - 8}v${up * 6}h8`;
  }
}
