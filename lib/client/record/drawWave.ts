import type { WaveBars } from "./waveBars";

/** How much of the height the loudest sample takes, on each side of the middle. */
const FILLED = 0.9;

/** How bars stand, in pixels of the canvas. */
export interface BarPlaces {
  stepPx: number;
  barPx: number;
}

/** Draws bars about the middle of a canvas, so that the loudest sample of the record nearly fills it. */
export function drawWave(
  canvas: HTMLCanvasElement,
  { pairs }: WaveBars,
  { stepPx, barPx }: BarPlaces,
  { loudest, colour }: { loudest: number; colour: string },
): void {
  const pen = canvas.getContext("2d");
  if (!pen) return;
  const { width, height } = canvas;
  pen.clearRect(0, 0, width, height);
  pen.fillStyle = colour;
  const middle = height / 2;
  const unit = (middle * FILLED) / loudest;
  pen.beginPath();
  for (let bar = 0; 2 * bar < pairs.length; bar++) {
    const top = Math.round(middle - pairs[2 * bar + 1]! * unit);
    const bottom = Math.round(middle - pairs[2 * bar]! * unit);
    pen.rect(Math.round(bar * stepPx), top, barPx, Math.max(1, bottom - top));
  }
  pen.fill();
}

/** Gives a canvas as many pixels as it takes on the screen. @returns pixels to a CSS pixel; null where it has no room */
export function fitCanvas(canvas: HTMLCanvasElement, widthPx: number, heightPx: number): number | null {
  if (widthPx <= 0 || heightPx <= 0) return null;
  const scale = window.devicePixelRatio || 1;
  const width = Math.round(widthPx * scale);
  const height = Math.round(heightPx * scale);
  // Setting it, even to the same, clears the canvas and makes it anew.
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
  return scale;
}
