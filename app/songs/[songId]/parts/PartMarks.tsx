"use client";

import { memo } from "react";
import { type DrawnStretch, drawnPx } from "@/lib/client/axis/timeAxis";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import styles from "./part.module.css";
import { stringY } from "./partLayout";

/** Narrower than this, no fret could be read. */
const CELL_FROM_PX = 9;

/** Whether events stand so close to one another, where minutes are in view, that their cells would cover each other. */
export function isTooClose(part: readonly ShownPart[], { pxPerSec }: DrawnStretch): boolean {
  const [first, last] = [part[0], part.at(-1)];
  if (!first || !last || part.length < 3) return false;
  return ((last.startSec - first.startSec) * pxPerSec) / (part.length - 1) < CELL_FROM_PX;
}

/** Where the part plays and on which strings: two paths however many events there are. */
export const PartMarks = memo(function PartMarks({
  part,
  strings,
  drawing,
}: {
  part: readonly ShownPart[];
  strings: readonly number[];
  drawing: DrawnStretch;
}) {
  const toPx = drawnPx(drawing);
  const marks = (mark: "pencil" | "ink") =>
    part
      .filter((event) => event.mark === mark)
      .flatMap((event) => {
        const from = toPx(event.startSec);
        const to = Math.max(from + 2, toPx(event.endSec) - 1);
        return event.strings.map((string) => `M${from} ${stringY(strings, string)}H${to}`);
      })
      .join("");
  return (
    <>
      <path className={styles.markPencil} d={marks("pencil")} />
      <path className={styles.markInk} d={marks("ink")} />
    </>
  );
});
