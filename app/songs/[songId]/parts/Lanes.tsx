"use client";

import { type ComponentType, useCallback, useEffect, useRef, useState } from "react";
import { scrollAxis, zoomAxis } from "@/lib/client/axis/timeAxis";
import { useElementWidth } from "@/lib/client/axis/useElementWidth";
import { type FoldableLane, KeptLanes } from "@/lib/client/lanes/KeptLanes";
import { browserStore } from "@/lib/client/page/browserStore";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { BassLane } from "./BassLane";
import { BeatLines } from "./BeatLines";
import { ChangesLane } from "./ChangesLane";
import { useDesk } from "./DeskContext";
import { HeardLane } from "./HeardLane";
import { LaneFold } from "./LaneFold";
import { KeptLanesHere } from "./laneFoldContext";
import styles from "./lanes.module.css";
import { AskedLane } from "./laterParts";
import over from "./overLanes.module.css";
import { PartLanes } from "./PartLanes";
import { PartsRow } from "./PartsRow";
import { Playhead } from "./Playhead";
import { RecordLane } from "./RecordLane";
import { Rulers } from "./Rulers";
import { SectionsLane } from "./SectionsLane";
import { SnapChoice } from "./SnapChoice";
import { Spans } from "./Spans";
import { TakesHereLane } from "./TakesHereLane";
import { useTwoFingers } from "./useTwoFingers";

const ZOOM_PER_WHEEL_PX = 0.002;

/** Keeps its place until it has come. */
function AskedHere() {
  return (
    <div className={styles.askedHere}>
      <AskedLane />
    </div>
  );
}

/** From top to bottom. */
const LANES: readonly { lane: FoldableLane; name: string; Lane: ComponentType }[] = [
  { lane: "sections", name: "Sections", Lane: SectionsLane },
  { lane: "record", name: "Record", Lane: RecordLane },
  { lane: "asked", name: "Asked", Lane: AskedHere },
  { lane: "changes", name: "Changes", Lane: ChangesLane },
  { lane: "bass", name: "Bass", Lane: BassLane },
  { lane: "heard", name: "Heard", Lane: HeardLane },
];

/** Whether a lane that is not there while nothing lies in it has nothing. */
function isEmpty(lane: FoldableLane, { sections, questions }: SongSnapshot): boolean {
  return (lane === "sections" ? sections : lane === "asked" ? questions : null)?.length === 0;
}

/** All lanes, one under the other, on the one time axis. */
export function Lanes() {
  const { axis, opened, page } = useDesk();
  const [kept] = useState(() => new KeptLanes(page.me.id, browserStore));
  const lanes = useRef<HTMLElement>(null);
  const track = useRef<HTMLDivElement>(null);
  useElementWidth(track, axis.measure);
  useTwoFingers(lanes, track, axis);

  const onWheel = useCallback(
    (event: WheelEvent) => {
      const box = track.current?.getBoundingClientRect();
      const column = lanes.current;
      if (!box || !column) return;
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        axis.glide((now) =>
          zoomAxis(now, Math.exp(-event.deltaY * ZOOM_PER_WHEEL_PX), event.clientX - box.left),
        );
        return;
      }
      const isSideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
      if (!isSideways && column.scrollHeight > column.clientHeight + 1) return;
      event.preventDefault();
      axis.change((now) =>
        scrollAxis(now, Math.abs(event.deltaX) > Math.abs(event.deltaY) ? event.deltaX : event.deltaY),
      );
    },
    [axis],
  );

  useEffect(() => {
    const column = lanes.current;
    // React listens passively to wheels; only a listener of one's own may keep the page from moving.
    column?.addEventListener("wheel", onWheel, { passive: false });
    return () => column?.removeEventListener("wheel", onWheel);
  }, [onWheel]);

  return (
    <KeptLanesHere value={kept}>
      <main className={styles.lanes} ref={lanes} aria-label="Lanes">
        <div className={styles.stack}>
          <div className={over.overlay} ref={track} />
          <BeatLines />
          <SnapChoice />
          <Rulers />
          {LANES.filter(({ lane }) => !isEmpty(lane, opened.song)).map(({ lane, name, Lane }) => (
            <LaneFold key={lane} lane={lane} name={name}>
              <Lane />
            </LaneFold>
          ))}
          <PartLanes />
          <PartsRow />
          <TakesHereLane />
          <Spans />
          <Playhead />
        </div>
      </main>
    </KeptLanesHere>
  );
}
