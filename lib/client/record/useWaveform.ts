import { type RefObject, useCallback, useEffect, useMemo, useRef } from "react";
import type { Seconds } from "@/lib/units/quantities";
import type { AxisStore } from "../axis/AxisStore";
import { useDrawing } from "../axis/useAxis";
import { watchTheme } from "../theme/theme";
import { drawWave, fitCanvas } from "./drawWave";
import type { RecordPeaks } from "./RecordPeaks";
import { loudestOf, waveBars } from "./waveBars";

/** A bar and the gap after it, in CSS pixels. */
const STEP_PX = 3;
const BAR_PX = 2;

/** How a sound lies on the record. */
export interface LaidSound {
  /** Of the record, where it begins, and where it ends. */
  fromSec: Seconds;
  toSec: Seconds;
  /** Seconds of the record to one of its own. */
  speed: number;
}

const RECORD: LaidSound = { fromSec: 0, toSec: Number.POSITIVE_INFINITY, speed: 1 };

/**
 * Draws the record, or another sound that lies on it, into a canvas that stands in the lanes' layer: the stretch that lanes draw now, anew when that changes,
 * when finer peaks have come, and with the theme. Its colour is the canvas' `color`.
 */
export function useWaveform(
  canvas: RefObject<HTMLCanvasElement | null>,
  axis: AxisStore,
  peaks: RecordPeaks | null,
  laid: LaidSound = RECORD,
): void {
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  const loudest = useMemo(() => (peaks ? loudestOf(peaks) : 1), [peaks]);

  /** Read only when they may have changed: to ask the browser for them lays the page out anew. */
  const look = useRef({ heightPx: 0, colour: "" });

  const draw = useCallback(() => {
    const drawn = canvas.current;
    const { heightPx, colour } = look.current;
    if (!drawn || !peaks) return;
    const { durationSec } = axis.now();
    // Bars stand at the same moments of the record wherever the drawing begins, so that they do not flicker.
    const barSec = STEP_PX / pxPerSec;
    const first = Math.max(0, Math.floor(Math.max(fromSec, laid.fromSec) / barSec));
    const end = Math.max(first, Math.ceil(Math.min(toSec, durationSec, laid.toSec) / barSec));
    const leftPx = Math.round((first * barSec - anchorSec) * pxPerSec);
    const widthPx = (end - first) * STEP_PX;
    drawn.style.left = `${leftPx}px`;
    drawn.style.width = `${widthPx}px`;
    drawn.style.height = `${heightPx}px`;
    const scale = fitCanvas(drawn, widthPx, heightPx);
    if (scale === null) return;
    const ownSec = (first * barSec - laid.fromSec) / laid.speed;
    const bars = waveBars(peaks, ownSec, barSec / laid.speed, end - first);
    const places = { stepPx: STEP_PX * scale, barPx: Math.round(BAR_PX * scale) };
    drawWave(drawn, bars, places, { loudest, colour });
  }, [canvas, axis, peaks, laid, loudest, anchorSec, fromSec, toSec, pxPerSec]);

  const latest = useRef(draw);
  useEffect(() => {
    latest.current = draw;
    draw();
  }, [draw]);
  useEffect(() => {
    const drawn = canvas.current;
    const lane = drawn?.parentElement;
    if (!drawn || !lane) return;
    const again = () => latest.current();
    const lookAgain = () => {
      look.current = { heightPx: lane.clientHeight, colour: getComputedStyle(drawn).color };
      again();
    };
    lookAgain();
    const stopPeaks = peaks?.watch(again);
    const stopTheme = watchTheme(lookAgain);
    const resized = new ResizeObserver(lookAgain);
    resized.observe(lane);
    return () => {
      stopPeaks?.();
      stopTheme();
      resized.disconnect();
    };
  }, [canvas, peaks]);
}
