import { type RefObject, useEffect } from "react";
import type { Seconds } from "@/lib/units/quantities";
import { whenIdle } from "../page/whenIdle";
import { watchTheme } from "../theme/theme";
import type { RecordPeaks } from "./RecordPeaks";
import { type WaveBars, waveBars } from "./waveBars";

/** As many as a wide screen has pixels, about. */
const COLUMNS = 2048;
/** The lanes come first. */
const AFTER_MS = 300;

/**
 * Has wavesurfer.js draw the whole record into an element, in the element's own `color`, anew when finer peaks have come, with the
 * theme and with its size. It is given the peaks, and neither plays nor seeks. It is fetched when the page has time for it.
 * @param durationSec of the record, more than 0
 */
export function useOverview(
  element: RefObject<HTMLElement | null>,
  peaks: RecordPeaks | null,
  durationSec: Seconds,
): void {
  useEffect(() => {
    const container = element.current;
    if (!container || !peaks) return;
    const leaving = new AbortController();
    const bars = () => waveBars(peaks, 0, durationSec / COLUMNS, COLUMNS);
    const colour = () => getComputedStyle(container).color;
    const draw = ({ default: WaveSurfer }: typeof import("wavesurfer.js")) => {
      if (leaving.signal.aborted) return;
      const first = bars();
      const picture = WaveSurfer.create({
        container,
        height: "auto",
        peaks: channelsOf(first),
        duration: durationSec,
        waveColor: colour(),
        progressColor: colour(),
        cursorWidth: 0,
        normalize: true,
        barHeight: 0.9,
        interact: false,
        hideScrollbar: true,
      });
      let { isWhole } = first;
      const stopPeaks = peaks.watch(() => {
        // What comes later is for lanes that scroll.
        if (isWhole) return;
        const finer = bars();
        isWhole = finer.isWhole;
        picture.load("", channelsOf(finer), durationSec).catch(leaveUndrawn);
      });
      const stopTheme = watchTheme(() =>
        picture.setOptions({ waveColor: colour(), progressColor: colour() }),
      );
      leaving.signal.addEventListener("abort", () => {
        stopPeaks();
        stopTheme();
        picture.destroy();
      });
    };
    const stopWaiting = whenIdle(() => void import("wavesurfer.js").then(draw, leaveUndrawn), AFTER_MS);
    return () => {
      stopWaiting();
      leaving.abort();
    };
  }, [element, peaks, durationSec]);
}

/** Highest and lowest samples of each column, -1 to 1, as two channels of which one is drawn up and one down. */
function channelsOf({ pairs }: WaveBars): Float32Array[] {
  const edge = (lowOrHigh: 0 | 1) =>
    Float32Array.from({ length: pairs.length / 2 }, (_, at) => pairs[2 * at + lowOrHigh]! / 127);
  return [edge(1), edge(0)];
}

/** What draws it cannot be had, or the page was left meanwhile: the strip works without its picture. */
function leaveUndrawn(): void {}
