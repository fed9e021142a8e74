"use client";

import { useCallback, useEffect, useRef } from "react";
import { followPlayhead, secToPx } from "@/lib/client/axis/timeAxis";
import { useDesk } from "./DeskContext";
import styles from "./overLanes.module.css";

/** The one playhead, over all lanes; while the record plays, the lanes follow it. */
export function Playhead() {
  const { axis, player } = useDesk();
  const head = useRef<HTMLDivElement>(null);
  const place = useCallback(() => {
    const now = axis.now();
    const px = secToPx(now, player.timeSec);
    if (!head.current) return;
    head.current.style.transform = `translate3d(${px}px, 0, 0)`;
    head.current.style.visibility = px < -1 || px > now.widthPx + 1 ? "hidden" : "visible";
  }, [axis, player]);

  useEffect(() => {
    place();
    const stopAxis = axis.onMove(place);
    const stopTime = player.onTime((timeSec) => {
      const { isPlaying, isOnNotes } = player.now();
      if (isPlaying && !isOnNotes) axis.change((now) => followPlayhead(now, timeSec));
      place();
    });
    return () => {
      stopAxis();
      stopTime();
    };
  }, [axis, player, place]);

  return (
    <div className={styles.playheadTrack} aria-hidden="true">
      <div className={styles.playhead} ref={head}>
        <svg width="14" height="9" viewBox="0 0 14 9" aria-hidden="true">
          <path d="M0 0h14L7 9z" fill="currentColor" />
        </svg>
      </div>
    </div>
  );
}
