import { type RefObject, useEffect } from "react";
import WaveSurfer from "wavesurfer.js";
import type { Peaks } from "@/lib/contracts/peaks";
import type { AxisStore } from "../axis/AxisStore";
import type { Player } from "../player/Player";
import { watchTheme } from "../theme/theme";
import { finestPeaks } from "./loadPeaks";

/**
 * Draws the record into an element and keeps it on the axis. The waveform draws the player's own media element;
 * it neither plays nor seeks. Its colour is the element's `color`.
 */
export function useWaveform(
  element: RefObject<HTMLElement | null>,
  axis: AxisStore,
  player: Player,
  peaks: Peaks | null,
): void {
  useEffect(() => {
    const container = element.current;
    if (!container || !peaks) return;
    const colour = () => getComputedStyle(container).color;
    const waveform = WaveSurfer.create({
      container,
      height: "auto",
      media: player.media,
      peaks: finestPeaks(peaks),
      duration: player.durationSec,
      minPxPerSec: axis.now().pxPerSec,
      waveColor: colour(),
      progressColor: colour(),
      cursorWidth: 0,
      barWidth: 2,
      barGap: 1,
      normalize: true,
      interact: false,
      hideScrollbar: true,
      autoScroll: false,
      autoCenter: false,
    });
    let zoom = axis.now().pxPerSec;
    let frame = 0;
    const place = () => {
      const now = axis.now();
      waveform.setScroll(Math.round(now.startSec * now.pxPerSec));
      if (now.pxPerSec === zoom) return;
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        zoom = axis.now().pxPerSec;
        if (waveform.getDecodedData()) waveform.zoom(zoom);
        waveform.setScroll(Math.round(axis.now().startSec * zoom));
      });
    };
    waveform.on("ready", () => {
      zoom = 0;
      place();
    });
    waveform.on("redraw", () => waveform.setScroll(Math.round(axis.now().startSec * axis.now().pxPerSec)));
    place();
    const stopAxis = axis.onMove(place);
    const stopTheme = watchTheme(() => waveform.setOptions({ waveColor: colour(), progressColor: colour() }));
    return () => {
      cancelAnimationFrame(frame);
      stopAxis();
      stopTheme();
      waveform.destroy();
    };
  }, [element, axis, player, peaks]);
}
