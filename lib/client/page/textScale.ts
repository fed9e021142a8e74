const READ_EVERY_MS = 1000;

let readAtMs = Number.NEGATIVE_INFINITY;
let scale = 1;

/**
 * How large text is beside the size that pages are laid out in, 16 px: 2 where someone reads at 200 %. What is drawn by
 * pixels asks it how much room words take, often in one frame, and so it is read anew once a second at most.
 */
export function textScale(): number {
  if (typeof document === "undefined" || performance.now() - readAtMs < READ_EVERY_MS) return scale;
  readAtMs = performance.now();
  scale = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1;
  return scale;
}
