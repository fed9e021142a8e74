"use client";

import { type PointerEvent, useMemo } from "react";
import { pxToSec } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { BassInHand, BassNotes } from "./BassNotes";
import { bassPx, bassY } from "./bassLayout";
import { useDesk } from "./DeskContext";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { isHomeUnseen, selectedNote } from "./selection";
import traces from "./traces.module.css";
import { useSongHomes } from "./useSongHomes";
import { useSpanDrag } from "./useSpanDrag";

/** A click this near to a note means it. */
const REACH_PX = 12;

/** The bass line: numbers of home at their heights, so that a walk-up is seen to climb. */
export function BassLane() {
  const { axis, opened, selection, select, player, covered } = useDesk();
  const drawing = useDrawing(axis);
  const { fromSec, toSec, pxPerSec } = drawing;
  const drag = useSpanDrag(choose);
  const homes = useSongHomes(opened.song);
  const { bass } = opened.song;
  const inView = useMemo(() => withinStretch(bass, fromSec, toSec), [bass, fromSec, toSec]);
  const yOf = useMemo(() => bassY(bass), [bass]);

  function choose(event: PointerEvent<HTMLElement>) {
    const sec = pxToSec(axis.now(), event.clientX - event.currentTarget.getBoundingClientRect().left);
    const away = (note: { startSec: number; endSec: number }) =>
      Math.max(note.startSec - sec, sec - note.endSec, 0) * pxPerSec;
    const [note] = inView.filter((each) => away(each) < REACH_PX).sort((a, b) => away(a) - away(b));
    if (note) select({ kind: "bass", id: note.id, stretch: note.stretch });
    else player.seek(sec);
  }

  return (
    <section className={styles.lane} aria-label="Bass">
      <LaneName
        name="Bass"
        note={bass.length === 0 ? "" : isHomeUnseen(homes, fromSec) ? "by letters" : "numbers of home"}
      />
      <div className={`${styles.track} ${traces.track}`} style={{ height: bassPx() }} {...drag}>
        <LaneLayer axis={axis}>
          <BassNotes notes={inView} homes={homes} yOf={yOf} drawing={drawing} />
          <BassInHand
            notes={inView}
            selected={selectedNote(opened.song, selection)}
            yOf={yOf}
            drawing={drawing}
          />
          <LaneCover lane="changes" />
          <LaneFlags lane="bass" />
        </LaneLayer>
        {bass.length === 0 && covered.stretches.changes.length === 0 ? (
          <p className={styles.empty}>No bass line yet</p>
        ) : null}
      </div>
    </section>
  );
}
