"use client";

import { type PointerEvent, useMemo } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { partAsWritten } from "@/lib/client/song/partOnGuitar";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { caretUnder } from "./caretUnder";
import { useDesk } from "./DeskContext";
import guitarStyles from "./guitar.module.css";
import { LaneCover } from "./LaneCover";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import styles from "./lanes.module.css";
import { PartGutter } from "./PartGutter";
import { PartPicture } from "./PartPicture";
import partStyles from "./part.module.css";
import { stringPx, stringY, topOfEvent } from "./partLayout";
import { partRegionName } from "./partRegionName";
import { partsActs } from "./partsActs";
import { useSpanDrag } from "./useSpanDrag";

/** A part that is not in hand: to be read. A click in it, or its guitar's name, takes it in hand. */
export function OtherPartLane({ part }: { part: SongPart }) {
  const desk = useDesk();
  const { axis, snap, grid, parts } = desk;
  const { events } = part;
  const { copedent } = part.head;
  const name = parts.nameOf(part.id);
  const drawing = useDrawing(axis);
  const { fromSec, toSec } = drawing;
  const strings = useMemo(() => copedent.strings.map((each) => each.number), [copedent]);
  const inView = useMemo(() => withinStretch(events, fromSec, toSec), [events, fromSec, toSec]);
  const { flags } = useMemo(() => partAsWritten(events, copedent), [events, copedent]);
  const height = strings.length * stringPx();
  const drag = useSpanDrag((event: PointerEvent<HTMLElement>) =>
    partsActs(desk).take(part, caretUnder(event, { axis, grid, snap, strings, events })),
  );

  return (
    <section
      className={`${styles.lane} ${guitarStyles.lane} ${partStyles.other}`}
      aria-label={partRegionName(part, name)}
    >
      <PartGutter
        name={name}
        copedent={copedent}
        act={`take ${name} in hand`}
        title={`${name}, on ${copedent.name}: take it in hand`}
        onAct={() => partsActs(desk).take(part)}
      />
      <div className={`${styles.track} ${partStyles.strings}`} style={{ height }} {...drag}>
        {strings.map((string) => (
          <i key={string} className={partStyles.string} style={{ top: stringY(strings, string) }} />
        ))}
        <LaneLayer axis={axis}>
          <PartPicture
            part={inView}
            of={{ events, copedent, flags }}
            chosen={NONE}
            strings={strings}
            drawing={drawing}
          />
          {/* A guess is made in the part that is in hand. */}
          <div inert>
            <LaneCover lane="places" />
          </div>
          <LaneFlags
            lane="part"
            partId={part.id}
            topOf={(recordId) => topOfEvent(strings, events, recordId)}
          />
        </LaneLayer>
        {events.length === 0 ? <p className={styles.empty}>Nothing written yet</p> : null}
      </div>
    </section>
  );
}

const NONE = [] as const;
