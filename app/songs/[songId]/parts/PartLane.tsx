"use client";

import { type PointerEvent, type Ref, useMemo } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { CheckMarks } from "./CheckMarks";
import { caretUnder } from "./caretUnder";
import { useDesk } from "./DeskContext";
import guitarStyles from "./guitar.module.css";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";
import { PartBox } from "./PartBox";
import { PartCaret } from "./PartCaret";
import { PartGutter } from "./PartGutter";
import { PartPicture } from "./PartPicture";
import { PassageFrame } from "./PassageFrame";
import partStyles from "./part.module.css";
import { stringPx, stringY, topOfEvent } from "./partLayout";
import { partRegionName } from "./partRegionName";
import { chosenEvents } from "./selection";
import { usePartDrag } from "./usePartDrag";

/** The part in hand: one line a string, string 1 on top. Click to set the caret, then type. */
export function PartLane({ ref }: { ref: Ref<HTMLElement> }) {
  const desk = useDesk();
  const { axis, snap, grid, opened, copedent, parts, guitar, selection, select, laidOut, mayWrite } = desk;
  const { stretches } = desk.covered;
  const name = parts.nameOf();
  const drawing = useDrawing(axis);
  const { anchorSec, fromSec, toSec, pxPerSec } = drawing;
  const strings = useMemo(() => copedent.strings.map((each) => each.number), [copedent]);
  const { part } = opened.song;
  const inView = useMemo(() => withinStretch(part, fromSec, toSec), [part, fromSec, toSec]);
  const height = strings.length * stringPx();
  const { draft, track, handlers } = usePartDrag(inView, strings, setCaret);
  const chosen = chosenEvents(opened.song, selection);
  const { edits } = draft;
  // The very same objects where nothing is dragged, so that no cell is drawn anew.
  const drafted = edits
    ? inView.map((event) => (edits.has(event.id) ? { ...event, ...edits.get(event.id) } : event))
    : inView;

  function setCaret(event: PointerEvent<HTMLElement>) {
    select({ kind: "caret", caret: caretUnder(event, { axis, grid, snap, strings, events: part }) });
  }

  return (
    <section
      ref={ref}
      className={`${styles.lane} ${guitarStyles.lane} ${parts.areSeveral ? partStyles.inHand : ""}`}
      aria-label={partRegionName(parts.atHand, name)}
      aria-current={parts.areSeveral ? "true" : undefined}
    >
      <PartGutter
        name={name}
        copedent={copedent}
        act="the part's guitar"
        title={`${copedent.name}: choose the part's guitar`}
        onAct={() => guitar.openSheet(true)}
      />
      <div className={`${styles.track} ${partStyles.strings}`} style={{ height }} ref={track} {...handlers}>
        {strings.map((string) => (
          <i key={string} className={partStyles.string} style={{ top: stringY(strings, string) }} />
        ))}
        <LaneLayer axis={axis}>
          <PartPicture
            part={drafted}
            of={{ events: part, copedent, flags: guitar.read.flags }}
            chosen={chosen}
            strings={strings}
            drawing={drawing}
          >
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
          </PartPicture>
          <LaneCover lane="places" />
          <LaneFlags
            lane="part"
            partId={parts.atHand.id}
            topOf={(recordId) => topOfEvent(strings, part, recordId)}
          />
        </LaneLayer>
        {opened.song.part.length === 0 && stretches.places.length === 0 ? (
          <p className={styles.empty}>
            Nothing written yet
            {mayWrite ? ". Click a string and type a fret, or take a heard note here (W)" : ""}
          </p>
        ) : null}
      </div>
    </section>
  );
}
