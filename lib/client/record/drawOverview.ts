import { drawWave, fitCanvas } from "./drawWave";
import type { RecordPeaks } from "./RecordPeaks";
import { loudestOf, waveBars } from "./waveBars";

/** Draws the whole record into a canvas, one column a pixel, in the canvas' own `color`. */
export function drawOverview(canvas: HTMLCanvasElement, peaks: RecordPeaks | null): void {
  const scale = fitCanvas(canvas, canvas.clientWidth, canvas.clientHeight);
  if (!peaks || scale === null) return;
  const columnSec = peaks.head.frameCount / peaks.head.sampleRateHz / canvas.width;
  const bars = waveBars(peaks, 0, columnSec, canvas.width);
  const places = { stepPx: 1, barPx: 1 };
  drawWave(canvas, bars, places, { loudest: loudestOf(peaks), colour: getComputedStyle(canvas).color });
}
