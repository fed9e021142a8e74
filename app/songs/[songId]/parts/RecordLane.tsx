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
  const { axis } = useDesk();
  const peaks = usePeaks();
  const wave = useRef<HTMLCanvasElement>(null);
  const drag = useSpanDrag();
  useWaveform(wave, axis, peaks);
  return (
    <section className={styles.lane} aria-label="Record">
      <LaneName name="Record" note="" />
      <div className={`${styles.track} ${styles.record}`} {...drag}>
        {peaks ? null : <p className={styles.empty}>The waveform is being drawn</p>}
        <LaneLayer axis={axis}>
          <canvas className={styles.wave} ref={wave} />
          <LaneFlags lane="record" />
        </LaneLayer>
      </div>
    </section>
  );
}
