"use client";

import { type PointerEvent, useCallback, useEffect, useRef } from "react";
import { settleAxis, type TimeAxis, viewSec } from "@/lib/client/axis/timeAxis";
import { useAxisMoves } from "@/lib/client/axis/useAxis";
import { useElementWidth } from "@/lib/client/axis/useElementWidth";
import { clockText, printed } from "@/lib/client/format/format";
import { usePeaks } from "@/lib/client/record/PeaksContext";
import { useOverview } from "@/lib/client/record/useOverview";
import { useDesk } from "./DeskContext";
import { StripSections } from "./StripSections";
import { StripStudies } from "./StripStudies";
import styles from "./strip.module.css";

/** The whole song at a glance: what is in view, where the playhead is. Click or drag to move the lanes there. */
export function SongStrip() {
  const { axis, player, page } = useDesk();
  const strip = useRef<HTMLDivElement>(null);
  const picture = useRef<HTMLDivElement>(null);
  useOverview(picture, usePeaks(), page.durationSec);
  const view = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const share = (sec: number) => `${(sec / Math.max(page.durationSec, 0.001)) * 100}%`;

  const widthPx = useRef(0);

  // Both are only moved along, by whole pictures of their own: the strip below is not drawn again for them.
  const placeView = useCallback((now: TimeAxis) => {
    if (!view.current) return;
    const left = (now.startSec / now.durationSec) * widthPx.current;
    const width = `${(Math.min(1, viewSec(now) / now.durationSec) * 100).toFixed(3)}%`;
    view.current.style.transform = `translateX(${left}px)`;
    if (view.current.style.width !== width) view.current.style.width = width;
  }, []);
  useAxisMoves(axis, placeView);
  const placeHead = useCallback(
    (timeSec: number) => {
      // In a long song it stands still for many frames; by less than half a pixel nobody sees it move.
      const left = Math.round(2 * (timeSec / player.durationSec) * widthPx.current) / 2;
      const moved = `translateX(${left}px)`;
      if (head.current && head.current.style.transform !== moved) head.current.style.transform = moved;
    },
    [player],
  );
  useEffect(() => {
    placeHead(player.timeSec);
    return player.onTime(placeHead);
  }, [player, placeHead]);
  const measure = useCallback(
    (px: number) => {
      widthPx.current = px;
      placeView(axis.now());
      placeHead(player.timeSec);
    },
    [axis, player, placeView, placeHead],
  );
  useElementWidth(strip, measure);

  function show(event: PointerEvent<HTMLElement>) {
    const box = event.currentTarget.getBoundingClientRect();
    const sec = ((event.clientX - box.left) / box.width) * page.durationSec;
    axis.change((now) => settleAxis({ ...now, startSec: sec - viewSec(now) / 2 }));
  }

  return (
    <section aria-label="Whole song">
      <div className={styles.strip} ref={strip}>
        <div
          className={styles.picture}
          role="img"
          aria-label={`The whole song, ${clockText(page.durationSec)}`}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            show(event);
          }}
          onPointerMove={(event) => event.buttons > 0 && show(event)}
        >
          <div className={styles.wave} ref={picture} aria-hidden="true" />
        </div>
        <StripSections share={share} />
        <HomeMarks share={share} />
        <div className={styles.view} ref={view} />
        <div className={styles.head} ref={head} />
      </div>
      <StripStudies share={share} />
    </section>
  );
}

/** Where home moves within the song. */
function HomeMarks({ share }: { share: (sec: number) => string }) {
  const { opened } = useDesk();
  return opened.song.homes.slice(1).map((home) => (
    <span key={home.id} className={styles.home} style={{ left: share(home.startSec) }}>
      home {printed(home.tonic)}
      {home.mode === "minor" ? " minor" : ""}
    </span>
  ));
}
