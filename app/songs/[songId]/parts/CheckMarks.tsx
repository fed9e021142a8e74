"use client";

import { useMemo } from "react";
import { useCheckState } from "@/lib/client/fit/useFit";
import { CHECK_SIGNS } from "./checkSigns";
import { useDesk } from "./DeskContext";
import styles from "./fit.module.css";
import { fitActs } from "./fitActs";
import { stringPx, stringY } from "./partLayout";

const RADIUS = 8;

/** What the last check found, over the events of the part: a sign in a ring, dashed where the event was changed since. */
export function CheckMarks({
  fromSec,
  toSec,
  strings,
  toPx,
}: {
  fromSec: number;
  toSec: number;
  strings: readonly number[];
  toPx: (timeSec: number) => number;
}) {
  const desk = useDesk();
  const { marks } = useCheckState(desk.fit);
  const { part } = desk.opened.song;
  const byId = useMemo(() => new Map(part.map((event) => [event.id, event])), [part]);
  if (marks.length === 0) return null;
  return fitActs(desk)
    .shownMarks(marks)
    .map(({ eventId, verdict, isStale }) => {
      const event = byId.get(eventId);
      if (!event || verdict.kind === "fits" || event.endSec < fromSec || event.startSec > toSec) return null;
      const top = Math.min(...event.strings.map((string) => stringY(strings, string)));
      const y = Math.max(RADIUS + 1, top - stringPx() / 2 - RADIUS + 2);
      const x = toPx(event.startSec) + 4;
      return (
        <g key={eventId} className={isStale ? styles.staleMark : undefined} data-check={verdict.kind}>
          <circle className={styles.mark} cx={x} cy={y} r={RADIUS} />
          <text className={styles.markSign} x={x} y={y + 4}>
            {CHECK_SIGNS[verdict.kind]}
          </text>
        </g>
      );
    });
}
