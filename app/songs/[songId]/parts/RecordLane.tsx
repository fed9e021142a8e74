"use client";

import { useRef } from "react";
import { usePeaks } from "@/lib/client/record/PeaksContext";
import { useWaveform } from "@/lib/client/record/useWaveform";
import { useDesk } from "./DeskContext";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { useSpanDrag } from "./useSpanDrag";

/** The record as a waveform. Click to go there, drag to select. */
export function RecordLane() {
  const { axis, player } = useDesk();
  const peaks = usePeaks();
  const wave = useRef<HTMLDivElement>(null);
  const drag = useSpanDrag();
  useWaveform(wave, axis, player, peaks);
  return (
    <section className={styles.lane} aria-label="Record">
      <LaneName name="Record" note="" />
      <div className={`${styles.track} ${styles.record}`} {...drag}>
        <div className={styles.wave} ref={wave} aria-hidden="true" />
        {peaks ? null : <p className={styles.empty}>The waveform is being drawn</p>}
        <LaneLayer axis={axis}>
          <LaneFlags lane="record" />
        </LaneLayer>
      </div>
    </section>
  );
}
