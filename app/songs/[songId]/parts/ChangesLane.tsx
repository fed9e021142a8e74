"use client";

import { useMemo } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { printed } from "@/lib/client/format/format";
import { moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import { keyToWords } from "@/lib/theory/key";
import { ChangeBox } from "./ChangeBox";
import changeStyles from "./changes.module.css";
import { useDesk } from "./DeskContext";
import { HomeFlags } from "./HomeFlags";
import { handScrollOn } from "./handScrollOn";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { NarrowChanges } from "./NarrowChanges";
import { RunGhosts } from "./RunGhosts";
import { StretchEdges } from "./StretchEdges";
import { homeAt, isHomeUnseen, selectedChange } from "./selection";
import { useSpanDrag } from "./useSpanDrag";

/** Narrower than this, where minutes are in view, a change is a line and no box; the keys still walk from one to the next. */
const BOX_FROM_PX = 8;
/** The edge of a narrower one cannot be taken hold of. */
const EDGE_FROM_PX = 14;

/** The chord changes: the number of the key first, the letter second; pencil dashed, ink solid. */
export function ChangesLane() {
  const desk = useDesk();
  const { axis, opened, selection, mayWrite } = desk;
  const drawing = useDrawing(axis);
  const { fromSec, toSec, pxPerSec } = drawing;
  const drag = useSpanDrag();
  const { changes } = opened.song;
  const selected = selectedChange(opened.song, selection);
  const { boxes, edges, narrow } = useMemo(() => {
    const inView = withinStretch(changes, fromSec, toSec);
    const atLeast = (px: number) => inView.filter((each) => (each.endSec - each.startSec) * pxPerSec >= px);
    const boxes = atLeast(BOX_FROM_PX);
    return { boxes, edges: atLeast(EDGE_FROM_PX), narrow: boxes.length < inView.length ? inView : [] };
  }, [changes, fromSec, toSec, pxPerSec]);
  const there = homeAt(opened.song, fromSec);
  const home = there
    ? `home ${printed(keyToWords(there))}`
    : isHomeUnseen(opened.song, fromSec)
      ? "home covered"
      : "home not known";

  return (
    <section className={styles.lane} aria-label="Changes">
      <LaneName name="Changes" note={home} />
      <div className={`${styles.track} ${changeStyles.changes}`} onScroll={handScrollOn(axis)} {...drag}>
        <LaneLayer axis={axis}>
          <NarrowChanges changes={narrow} drawing={drawing} />
          {boxes.map((change) => (
            <ChangeBox key={`${change.id}.${change.stretch}`} change={change} />
          ))}
          {selected && narrow.includes(selected) && !boxes.includes(selected) ? (
            <ChangeBox change={selected} />
          ) : null}
          <StretchEdges all={changes} inView={edges} selected={selected} move={moveChangeBoundary} />
          <HomeFlags />
          <RunGhosts />
          <LaneCover lane="changes" />
          <LaneFlags lane="changes" />
        </LaneLayer>
        {changes.length === 0 && desk.covered.stretches.changes.length === 0 ? (
          <p className={styles.empty}>No changes yet{mayWrite ? ". Shift F2 types them in a run" : ""}</p>
        ) : null}
      </div>
    </section>
  );
}
