"use client";

import { type PointerEvent, useMemo } from "react";
import { snapSec } from "@/lib/client/axis/snap";
import { pxToSec } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { shortName } from "@/lib/client/copedents/copedentWords";
import { CheckMarks } from "./CheckMarks";
import { useDesk } from "./DeskContext";
import guitarStyles from "./guitar.module.css";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneHeading } from "./LaneHeading";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";
import { PartBox } from "./PartBox";
import { PartCaret } from "./PartCaret";
import { PartCells } from "./PartCells";
import { isTooClose, PartMarks } from "./PartMarks";
import { PassageFrame } from "./PassageFrame";
import partStyles from "./part.module.css";
import { STRING_PX, stringY } from "./partLayout";
import { chosenEvents } from "./selection";
import { usePartDrag } from "./usePartDrag";

/** The part: one line a string, string 1 on top. Click to set the caret, then type. */
export function PartLane() {
  const { axis, snap, grid, opened, copedent, guitar, selection, select, laidOut, mayWrite, covered } =
    useDesk();
  const drawing = useDrawing(axis);
  const { anchorSec, fromSec, toSec, pxPerSec } = drawing;
  const strings = useMemo(() => copedent.strings.map((each) => each.number), [copedent]);
  const { part } = opened.song;
  const inView = useMemo(() => withinStretch(part, fromSec, toSec), [part, fromSec, toSec]);
  const height = strings.length * STRING_PX;
  const { draft, track, handlers } = usePartDrag(inView, strings, setCaret);
  const chosen = chosenEvents(opened.song, selection);
  const { edits } = draft;
  // The very same objects where nothing is dragged, so that no cell is drawn anew.
  const drafted = edits
    ? inView.map((event) => (edits.has(event.id) ? { ...event, ...edits.get(event.id) } : event))
    : inView;

  function setCaret(event: PointerEvent<HTMLElement>) {
    const box = event.currentTarget.getBoundingClientRect();
    const px = event.clientX - box.left;
    const index = Math.min(
      strings.length - 1,
      Math.max(0, Math.floor((event.clientY - box.top) / STRING_PX)),
    );
    const string = strings[index] ?? 1;
    const sec = pxToSec(axis.now(), px);
    const reachSec = 14 / pxPerSec;
    const near = opened.song.part.find(
      (each) =>
        each.strings.includes(string) &&
        sec >= each.startSec - reachSec &&
        sec <= each.startSec + 2 * reachSec,
    );
    const timeSec = near?.startSec ?? snapSec(grid, snap.now().snap, sec);
    select({ kind: "caret", caret: { string, timeSec } });
  }

  const topOf = (recordId: string | null) => {
    const event = opened.song.part.find((each) => each.id === recordId);
    return event ? stringY(strings, Math.min(...event.strings)) - STRING_PX - 8 : 0;
  };

  return (
    <section className={`${styles.lane} ${guitarStyles.lane}`} aria-label="Part">
      <div className={styles.gutter}>
        <LaneHeading name="Part" isOver />
        <button
          type="button"
          className={guitarStyles.name}
          title={`${copedent.name}: choose the part's guitar`}
          onClick={() => guitar.openSheet(true)}
        >
          {shortName(copedent)}
          <span className="unseen">, the part's guitar</span>
        </button>
        <ol className={partStyles.stringNumbers} aria-hidden="true">
          {strings.map((string) => (
            <li key={string} style={{ top: stringY(strings, string) }}>
              {string}
            </li>
          ))}
        </ol>
      </div>
      <div className={`${styles.track} ${partStyles.strings}`} style={{ height }} ref={track} {...handlers}>
        {strings.map((string) => (
          <i key={string} className={partStyles.string} style={{ top: stringY(strings, string) }} />
        ))}
        <LaneLayer axis={axis}>
          <svg
            className={partStyles.cells}
            width={Math.ceil((toSec - anchorSec) * pxPerSec)}
            height={height}
            aria-hidden="true"
          >
            {isTooClose(inView, drawing) ? (
              <PartMarks part={inView} strings={strings} drawing={drawing} />
            ) : (
              <PartCells part={drafted} chosen={chosen} strings={strings} drawing={drawing} />
            )}
            <CheckMarks
              fromSec={fromSec}
              toSec={toSec}
              strings={strings}
              toPx={(sec) => Math.round((sec - anchorSec) * pxPerSec)}
            />
            {laidOut ? (
              <PassageFrame
                x={Math.round((laidOut.startSec - anchorSec) * pxPerSec)}
                width={Math.round((laidOut.endSec - laidOut.startSec) * pxPerSec)}
                height={height}
              />
            ) : null}
            {draft.box ? <PartBox box={draft.box} strings={strings} drawing={drawing} /> : null}
            {selection?.kind === "caret" || selection?.kind === "events" ? (
              <PartCaret
                x={Math.round((selection.caret.timeSec - anchorSec) * pxPerSec)}
                y={stringY(strings, selection.caret.string)}
              />
            ) : null}
          </svg>
          <LaneCover lane="places" />
          <LaneFlags lane="part" topOf={topOf} />
        </LaneLayer>
        {opened.song.part.length === 0 && covered.stretches.places.length === 0 ? (
          <p className={styles.empty}>
            Nothing written yet
            {mayWrite ? ". Click a string and type a fret, or take a heard note here (W)" : ""}
          </p>
        ) : null}
      </div>
    </section>
  );
}
