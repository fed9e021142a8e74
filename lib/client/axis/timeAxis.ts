import type { Seconds } from "@/lib/units/quantities";

/** The one axis of the song page: which stretch of the record is in view, and how wide a second is. */
export interface TimeAxis {
  /** Seconds of the record at the left edge. */
  startSec: Seconds;
  pxPerSec: number;
  /** Width of the lanes, in CSS pixels. */
  widthPx: number;
  /** Length of the record. */
  durationSec: Seconds;
}

/** Closest look: a beat at 120 a minute is then 400 px wide. */
const MAX_PX_PER_SEC = 800;

/** Where a time lies, in pixels from the left edge; outside 0..widthPx when out of view. */
export function secToPx(axis: TimeAxis, timeSec: Seconds): number {
  return (timeSec - axis.startSec) * axis.pxPerSec;
}

/** The time at a pixel, kept within the record. */
export function pxToSec(axis: TimeAxis, px: number): Seconds {
  return clamp(axis.startSec + px / axis.pxPerSec, 0, axis.durationSec);
}

/** Seconds in view. */
export function viewSec(axis: TimeAxis): Seconds {
  return axis.widthPx / axis.pxPerSec;
}

/** The zoom at which the whole record just fills the lanes. */
export function fitPxPerSec(axis: Pick<TimeAxis, "widthPx" | "durationSec">): number {
  return axis.durationSec > 0 ? Math.min(MAX_PX_PER_SEC, axis.widthPx / axis.durationSec) : MAX_PX_PER_SEC;
}

/** The axis with zoom and scroll within what the record allows: never past either end. */
export function settleAxis(axis: TimeAxis): TimeAxis {
  const pxPerSec = clamp(axis.pxPerSec, fitPxPerSec(axis), MAX_PX_PER_SEC);
  const latestSec = Math.max(0, axis.durationSec - axis.widthPx / pxPerSec);
  return { ...axis, pxPerSec, startSec: clamp(axis.startSec, 0, latestSec) };
}

/** Zooms by a factor while the time at `atPx` stays where it is (as far as the ends allow). */
export function zoomAxis(axis: TimeAxis, factor: number, atPx: number): TimeAxis {
  const pxPerSec = clamp(axis.pxPerSec * factor, fitPxPerSec(axis), MAX_PX_PER_SEC);
  const heldSec = axis.startSec + atPx / axis.pxPerSec;
  return settleAxis({ ...axis, pxPerSec, startSec: heldSec - atPx / pxPerSec });
}

/** Scrolls by pixels; positive shows later music. */
export function scrollAxis(axis: TimeAxis, px: number): TimeAxis {
  return settleAxis({ ...axis, startSec: axis.startSec + px / axis.pxPerSec });
}

/** Shows a stretch with a little room on either side. */
export function showStretch(axis: TimeAxis, fromSec: Seconds, toSec: Seconds): TimeAxis {
  const lengthSec = Math.max(toSec - fromSec, 0.25) * 1.1;
  const pxPerSec = axis.widthPx / lengthSec;
  return settleAxis({ ...axis, pxPerSec, startSec: (fromSec + toSec) / 2 - lengthSec / 2 });
}

/** Scrolls no further than needed for a time to be in view, `marginPx` from the edges. The same axis if it is. */
export function keepInView(axis: TimeAxis, timeSec: Seconds, marginPx: number): TimeAxis {
  const px = secToPx(axis, timeSec);
  const margin = Math.min(marginPx, axis.widthPx / 2);
  if (px < margin) return scrollAxis(axis, px - margin);
  if (px > axis.widthPx - margin) return scrollAxis(axis, px - (axis.widthPx - margin));
  return axis;
}

/** Where in the lanes the playhead rests while they glide under it, as a share of the width. */
const PLAYHEAD_REST = 0.4;

/**
 * The axis that follows the playhead: still while the playhead is left of its rest, then gliding with it; when
 * it left the view (a loop went back, a seek), shown again from a little before it.
 */
export function followPlayhead(axis: TimeAxis, timeSec: Seconds): TimeAxis {
  const px = secToPx(axis, timeSec);
  const restPx = axis.widthPx * PLAYHEAD_REST;
  if (px < 0 || px > axis.widthPx)
    return settleAxis({ ...axis, startSec: timeSec - (axis.widthPx * 0.1) / axis.pxPerSec });
  return px <= restPx ? axis : scrollAxis(axis, Math.min(px - restPx, MAX_GLIDE_PX));
}

/** A playhead that is far right of its rest is caught up with over some frames rather than at once. */
const MAX_GLIDE_PX = 24;

/**
 * The stretch that lanes draw: wider than the view, and moving in steps, so that lanes are drawn anew only
 * now and then while they glide.
 */
export interface DrawnStretch {
  /** Time at pixel 0 of what is drawn. */
  anchorSec: Seconds;
  fromSec: Seconds;
  toSec: Seconds;
  pxPerSec: number;
  widthPx: number;
}

export function drawnStretch(axis: TimeAxis): DrawnStretch {
  const stepSec = viewSec(axis) / 2;
  const anchorSec = stepSec > 0 ? Math.floor(axis.startSec / stepSec) * stepSec : 0;
  return {
    anchorSec,
    fromSec: anchorSec - stepSec,
    toSec: anchorSec + 4 * stepSec,
    pxPerSec: axis.pxPerSec,
    widthPx: axis.widthPx,
  };
}

/** Where times lie in a drawing, in whole pixels from its anchor. */
export function drawnPx({ anchorSec, pxPerSec }: DrawnStretch): (timeSec: Seconds) => number {
  return (timeSec) => Math.round((timeSec - anchorSec) * pxPerSec);
}

/** How far a drawing reaches to the right of its anchor. */
export function drawnWidthPx({ anchorSec, toSec, pxPerSec }: DrawnStretch): number {
  return Math.ceil((toSec - anchorSec) * pxPerSec);
}

/** How much narrower or wider than it was drawn a drawing may be shown while a zoom goes on. */
const MOST_STRETCHED = 1.7;

/** Whether a drawing that was made at another zoom, stretched to this one, still fills the view. */
export function fillsStretched(drawn: DrawnStretch, axis: TimeAxis): boolean {
  const ratio = axis.pxPerSec / drawn.pxPerSec;
  if (drawn.widthPx !== axis.widthPx || ratio > MOST_STRETCHED || ratio < 1 / MOST_STRETCHED) return false;
  const endSec = Math.min(axis.durationSec, axis.startSec + viewSec(axis));
  return axis.startSec >= Math.min(drawn.fromSec, axis.durationSec) && endSec <= drawn.toSec;
}

/** Whether two drawn stretches need no new drawing. */
export function isSameDrawing(a: DrawnStretch, b: DrawnStretch): boolean {
  return a.anchorSec === b.anchorSec && a.pxPerSec === b.pxPerSec && a.widthPx === b.widthPx;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), Math.max(low, high));
}
