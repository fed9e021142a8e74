"use client";

import { useMemo, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { clockText, percentText, timeText } from "@/lib/client/format/format";
import type { ListedTake } from "@/lib/client/takes/takeStates";
import { useDesk } from "./DeskContext";
import { LaneHeading } from "./LaneHeading";
import { LaneLayer } from "./LaneLayer";
import lanes from "./lanes.module.css";
import { TakeRow } from "./TakeRow";
import styles from "./takes.module.css";
import { useSpanDrag } from "./useSpanDrag";
import { useTakeShelf } from "./useTakeRecorder";

/** So many are drawn of one's own, and of those that others share, until all are asked for. */
const SHOWN = 3;

/** The latest takes of what is in view, one row each: one's own, then those that others share. */
export function TakesLane() {
  const desk = useDesk();
  const { axis, selection } = desk;
  const { takes } = useTakeShelf(desk);
  const [isWhole, setIsWhole] = useState(false);
  const { fromSec, toSec } = useDrawing(axis);
  const drag = useSpanDrag();
  const inView = useMemo(
    () => takes.filter(({ startSec, endSec }) => endSec >= fromSec && startSec <= toSec),
    [takes, fromSec, toSec],
  );
  const own = inView.filter(({ isOwn }) => isOwn);
  const shared = inView.filter(({ isOwn }) => !isOwn);
  const selectedId = selection?.kind === "take" ? selection.id : null;
  const latest = (list: readonly ListedTake[]) =>
    isWhole ? list : list.filter(({ id }, at) => at < SHOWN || id === selectedId);
  const rows = [...latest(own), ...latest(shared)];
  const more = inView.length - rows.length;
  return (
    <section className={lanes.lane} aria-label="Takes">
      <div className={lanes.gutter}>
        <LaneHeading name="Takes" isOver />
        <ol className={styles.names} aria-hidden="true">
          {rows.map((take) => (
            <li key={take.id} className={styles.name}>
              <span className={take.isOwn ? undefined : styles.theirName}>
                {take.isOwn ? "you" : take.ownerName}
              </span>
              <span className={styles.when}>
                {timeText(take.madeAtMs)} {take.speed === 1 ? "" : percentText(take.speed)}
              </span>
            </li>
          ))}
        </ol>
      </div>
      <div>
        <div className={`${lanes.track} ${styles.rows}`} {...drag}>
          {rows.length === 0 ? (
            <p className={lanes.empty}>
              No take of what is in view; {takes.length === 1 ? "one lies" : `${takes.length} lie`} elsewhere,
              the latest at {clockText(takes[0]?.startSec ?? 0)}
            </p>
          ) : null}
          <LaneLayer axis={axis}>
            {rows.map((take, row) => (
              <TakeRow key={take.id} take={take} row={row} />
            ))}
          </LaneLayer>
          <div style={{ height: `calc(${Math.max(1, rows.length)} * var(--take))` }} />
        </div>
        {more > 0 || (isWhole && inView.length > SHOWN) ? (
          <button type="button" className={controls.link} onClick={() => setIsWhole(!isWhole)}>
            {isWhole ? "Only the latest" : more === 1 ? "One more take here" : `${more} more takes here`}
          </button>
        ) : null}
      </div>
    </section>
  );
}
