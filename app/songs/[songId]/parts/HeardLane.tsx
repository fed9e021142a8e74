"use client";

import { type PointerEvent, useMemo } from "react";
import { pxToSec } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { isOfRecord, isOfSteel } from "@/lib/client/song/heardList";
import { useDesk } from "./DeskContext";
import { HeardNotes } from "./HeardNotes";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { NOTES_AND_BAND_PX, NOTES_PX, noteAt, noteY } from "./noteLayout";
import { selectedHeard } from "./selection";
import traces from "./traces.module.css";
import { useSpanDrag } from "./useSpanDrag";

/** The notes of the steel as they were heard, each at its height and with its glides; the band's on request. */
export function HeardLane() {
  const { axis, opened, selection, select, player, band, heardList, isTableOpen, openTable } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  const drag = useSpanDrag(choose);
  const { notes, bandNotes } = opened.song;
  const selected =
    selectedHeard(opened.song, selection) ?? (selection?.kind === "band" ? selection.note : null);
  const heightPx = heardList.length > notes.length ? NOTES_AND_BAND_PX : NOTES_PX;
  const drawn = useMemo(() => [...heardList, ...bandNotes], [heardList, bandNotes]);
  const yOf = useMemo(() => noteY(drawn, heightPx), [drawn, heightPx]);
  const isInView = (note: { startSec: number; endSec: number }) =>
    note.endSec >= fromSec && note.startSec <= toSec;
  const inView = heardList.filter(isInView);

  function choose(event: PointerEvent<HTMLElement>) {
    const box = event.currentTarget.getBoundingClientRect();
    const timeSec = pxToSec(axis.now(), event.clientX - box.left);
    const note = noteAt(inView, { timeSec, y: event.clientY - box.top }, pxPerSec, yOf);
    if (note) select(isOfRecord(note) ? { kind: "note", id: note.id } : { kind: "band", note });
    else player.seek(timeSec);
  }

  return (
    <section className={styles.lane} aria-label="Heard">
      <LaneName name="Heard" note={notes.length > 0 ? "the steel's notes" : ""}>
        {heardList.length > 0 ? (
          <button
            type="button"
            className={styles.laneAct}
            aria-expanded={isTableOpen}
            onClick={() => openTable(!isTableOpen)}
          >
            {isTableOpen ? "close list" : "list them"}
          </button>
        ) : null}
      </LaneName>
      <div className={`${styles.track} ${traces.track}`} style={{ height: heightPx }} {...drag}>
        <LaneLayer axis={axis}>
          <HeardNotes
            notes={notes.filter(isInView)}
            band={inView.filter((note) => !isOfSteel(note))}
            yOf={yOf}
            selected={selected}
            toPx={(sec) => Math.round((sec - anchorSec) * pxPerSec)}
            widthPx={Math.ceil((toSec - anchorSec) * pxPerSec)}
            heightPx={heightPx}
          />
          <LaneFlags lane="notes" />
        </LaneLayer>
        {notes.length === 0 && !band.shown ? (
          <p className={styles.empty}>No notes of the steel heard so far</p>
        ) : null}
      </div>
    </section>
  );
}
