import type { Peaks } from "@/lib/contracts/peaks";

/** Draws the whole record into a canvas, one column a pixel, in the canvas' own `color`. */
export function drawOverview(canvas: HTMLCanvasElement, peaks: Peaks | null): void {
  const scale = window.devicePixelRatio || 1;
  const width = Math.round(canvas.clientWidth * scale);
  const height = Math.round(canvas.clientHeight * scale);
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d");
  if (!pen || !peaks || width === 0) return;
  const zoom = peaks.zooms.findLast(({ pairs }) => pairs.length / 2 >= width) ?? peaks.zooms[0];
  if (!zoom) return;
  const { pairs } = zoom;
  const count = pairs.length / 2;
  const loudest = pairs.reduce((most, value) => Math.max(most, Math.abs(value)), 1);
  const half = (height / 2) * 0.86;
  pen.fillStyle = getComputedStyle(canvas).color;
  for (let column = 0; column < width; column++) {
    const from = Math.floor((column / width) * count);
    const to = Math.max(from + 1, Math.floor(((column + 1) / width) * count));
    let low = 0;
    let high = 0;
    for (let index = from; index < to; index++) {
      low = Math.min(low, pairs[2 * index] ?? 0);
      high = Math.max(high, pairs[2 * index + 1] ?? 0);
    }
    const top = height / 2 - (high / loudest) * half;
    const bottom = height / 2 - (low / loudest) * half;
    pen.fillRect(column, top, 1, Math.max(1, bottom - top));
  }
}
