"use client";

import type { UIEvent } from "react";
import { scrollAxis } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { printed } from "@/lib/client/format/format";
import { moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import { keyToWords } from "@/lib/theory/key";
import { ChangeBox } from "./ChangeBox";
import changeStyles from "./changes.module.css";
import { useDesk } from "./DeskContext";
import { HomeFlags } from "./HomeFlags";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { RunGhosts } from "./RunGhosts";
import { StretchEdge } from "./StretchEdge";
import { keyAt } from "./selection";

/** The chord changes: the number of the key first, the letter second; pencil dashed, ink solid. */
export function ChangesLane() {
  const { axis, opened } = useDesk();
  const { fromSec, toSec } = useDrawing(axis);
  const { changes, homes } = opened.song;
  const inView = changes
    .map((change, index) => ({ change, before: changes[index - 1] }))
    .filter(({ change }) => change.endSec >= fromSec && change.startSec <= toSec);
  const home =
    homes.length > 0 ? `home ${printed(keyToWords(keyAt(opened.song, fromSec)))}` : "home not known";

  function handOn(event: UIEvent<HTMLElement>) {
    const px = event.currentTarget.scrollLeft;
    if (px === 0) return;
    event.currentTarget.scrollLeft = 0;
    axis.change((now) => scrollAxis(now, px));
  }

  return (
    <section className={styles.lane} aria-label="Changes">
      <LaneName name="Changes" note={home} />
      <div className={`${styles.track} ${changeStyles.changes}`} onScroll={handOn}>
        <LaneLayer axis={axis}>
          {inView.map(({ change }) => (
            <ChangeBox key={`${change.id}.${change.stretch}`} change={change} />
          ))}
          {inView.map(({ change, before }) => (
            <StretchEdge
              key={`${change.id}.${change.stretch}`}
              left={before ?? null}
              right={change}
              move={moveChangeBoundary}
            />
          ))}
          <HomeFlags />
          <RunGhosts />
          <LaneFlags lane="changes" />
        </LaneLayer>
        {changes.length === 0 ? <p className={styles.empty}>No changes yet</p> : null}
      </div>
    </section>
  );
}
