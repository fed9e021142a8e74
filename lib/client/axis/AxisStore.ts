import type { Seconds } from "@/lib/units/quantities";
import {
  type DrawnStretch,
  drawnStretch,
  fillsStretched,
  isSameDrawing,
  settleAxis,
  type TimeAxis,
} from "./timeAxis";

/** How much of a song is in view when its page opens. */
const FIRST_VIEW_SEC = 10;
/** On narrow screens less is in view, so that cells do not stand on each other. */
const FIRST_PX_PER_SEC = 80;
/** A zoom that goes on has come to rest when nothing came of it for this long. */
const REST_MS = 90;

/** Holds the axis of one song page. Every lane listens here; nothing else keeps a zoom or a scroll. */
export class AxisStore {
  private axis: TimeAxis;
  private stretch: DrawnStretch;
  private readonly moved = new Set<() => void>();
  private readonly drawn = new Set<(isUrgent: boolean) => void>();
  private isMeasured = false;
  private rest: ReturnType<typeof setTimeout> | undefined;

  constructor(durationSec: Seconds) {
    this.axis = { startSec: 0, pxPerSec: 100, widthPx: 0, durationSec };
    this.stretch = drawnStretch(this.axis);
  }

  /** The axis now. */
  readonly now = (): TimeAxis => this.axis;

  /** What lanes draw now; the very same object until they must draw anew. */
  readonly drawing = (): DrawnStretch => this.stretch;

  /** Changes the axis; kept within the record's ends. */
  readonly change = (change: (axis: TimeAxis) => TimeAxis): void => this.move(change, false);

  /**
   * Changes the axis as one of the steps of a zoom, by a wheel, two fingers or a key: while the drawing that there is
   * fills the view it is only stretched, and lanes draw anew when the zoom rests. A whole picture a step would not keep up.
   */
  readonly glide = (change: (axis: TimeAxis) => TimeAxis): void => this.move(change, true);

  private move(change: (axis: TimeAxis) => TimeAxis, isGoingOn: boolean): void {
    const next = settleAxis(change(this.axis));
    const { startSec, pxPerSec, widthPx } = this.axis;
    if (next.startSec === startSec && next.pxPerSec === pxPerSec && next.widthPx === widthPx) return;
    this.axis = next;
    clearTimeout(this.rest);
    const fills = fillsStretched(this.stretch, next);
    if (isGoingOn && fills) this.rest = setTimeout(() => this.draw(false), REST_MS);
    else this.draw(!fills || (!isGoingOn && next.pxPerSec !== pxPerSec));
    for (const listener of this.moved) listener();
  }

  private draw(isUrgent: boolean): void {
    const stretch = drawnStretch(this.axis);
    if (isSameDrawing(stretch, this.stretch)) return;
    this.stretch = stretch;
    for (const listener of this.drawn) listener(isUrgent);
  }

  /** Tells how wide the lanes are; the first time, also sets the first zoom. */
  readonly measure = (widthPx: number): void => {
    if (widthPx <= 0) return;
    const first = !this.isMeasured;
    this.isMeasured = true;
    this.change((axis) => ({
      ...axis,
      widthPx,
      pxPerSec: first ? Math.max(FIRST_PX_PER_SEC, widthPx / FIRST_VIEW_SEC) : axis.pxPerSec,
    }));
  };

  /** Calls back on every move; returns the way to stop. */
  readonly onMove = (listener: () => void): (() => void) => {
    this.moved.add(listener);
    return () => this.moved.delete(listener);
  };

  /**
   * Calls back when lanes must be drawn anew, and whether at once: what stands there still fills the view while the lanes
   * scroll, or a zoom comes to rest. Returns the way to stop.
   */
  readonly onDraw = (listener: (isUrgent: boolean) => void): (() => void) => {
    this.drawn.add(listener);
    return () => this.drawn.delete(listener);
  };
}
