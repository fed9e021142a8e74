"use client";

import { type PointerEvent, useMemo } from "react";
import { pxToSec } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { isOfRecord, isOfSteel } from "@/lib/client/song/heardList";
import { useDesk } from "./DeskContext";
import { HeardInHand, HeardNotes } from "./HeardNotes";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { noteAt, notesPx, noteY } from "./noteLayout";
import { selectedHeard } from "./selection";
import traces from "./traces.module.css";
import { useSongHomes } from "./useSongHomes";
import { useSpanDrag } from "./useSpanDrag";

/** The notes of the steel as they were heard, each at its height and with its glides; the band's on request. */
export function HeardLane() {
  const {
    axis,
    opened,
    selection,
    select,
    player,
    band,
    heardList,
    isTableOpen,
    openTable,
    mayWrite,
    covered,
  } = useDesk();
  const drawing = useDrawing(axis);
  const { fromSec, toSec, pxPerSec } = drawing;
  const drag = useSpanDrag(choose);
  const homes = useSongHomes(opened.song);
  const { notes, bandNotes } = opened.song;
  const selected =
    selectedHeard(opened.song, selection) ?? (selection?.kind === "band" ? selection.note : null);
  const heightPx = notesPx(heardList.length > notes.length);
  const drawn = useMemo(() => [...heardList, ...bandNotes], [heardList, bandNotes]);
  const yOf = useMemo(() => noteY(drawn, heightPx), [drawn, heightPx]);
  const inView = useMemo(() => withinStretch(heardList, fromSec, toSec), [heardList, fromSec, toSec]);
  const steel = useMemo(() => withinStretch(notes, fromSec, toSec), [notes, fromSec, toSec]);
  const others = useMemo(() => inView.filter((note) => !isOfSteel(note)), [inView]);

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
            notes={steel}
            band={others}
            homes={homes}
            yOf={yOf}
            drawing={drawing}
            heightPx={heightPx}
          />
          <HeardInHand notes={steel} selected={selected} yOf={yOf} drawing={drawing} heightPx={heightPx} />
          <LaneCover lane="heard" />
          <LaneFlags lane="notes" />
        </LaneLayer>
        {notes.length === 0 && !band.shown && covered.stretches.heard.length === 0 ? (
          <p className={styles.empty}>
            No notes of the steel heard so far
            {mayWrite ? ". Select a few bars and press Q to have them heard" : ""}
          </p>
        ) : null}
      </div>
    </section>
  );
}
