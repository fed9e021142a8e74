import type { Seconds } from "@/lib/units/quantities";
import { type DrawnStretch, drawnStretch, isSameDrawing, settleAxis, type TimeAxis } from "./timeAxis";

/** How much of a song is in view when its page opens. */
const FIRST_VIEW_SEC = 10;
/** On narrow screens less is in view, so that cells do not stand on each other. */
const FIRST_PX_PER_SEC = 80;

/** Holds the axis of one song page. Every lane listens here; nothing else keeps a zoom or a scroll. */
export class AxisStore {
  private axis: TimeAxis;
  private stretch: DrawnStretch;
  private readonly moved = new Set<() => void>();
  private readonly drawn = new Set<() => void>();
  private isMeasured = false;

  constructor(durationSec: Seconds) {
    this.axis = { startSec: 0, pxPerSec: 100, widthPx: 0, durationSec };
    this.stretch = drawnStretch(this.axis);
  }

  /** The axis now. */
  readonly now = (): TimeAxis => this.axis;

  /** What lanes draw now; the very same object until they must draw anew. */
  readonly drawing = (): DrawnStretch => this.stretch;

  /** Changes the axis; kept within the record's ends. */
  readonly change = (change: (axis: TimeAxis) => TimeAxis): void => {
    const next = settleAxis(change(this.axis));
    const { startSec, pxPerSec, widthPx } = this.axis;
    if (next.startSec === startSec && next.pxPerSec === pxPerSec && next.widthPx === widthPx) return;
    this.axis = next;
    const stretch = drawnStretch(next);
    if (!isSameDrawing(stretch, this.stretch)) {
      this.stretch = stretch;
      for (const listener of this.drawn) listener();
    }
    for (const listener of this.moved) listener();
  };

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

  /** Calls back when lanes must be drawn anew; returns the way to stop. */
  readonly onDraw = (listener: () => void): (() => void) => {
    this.drawn.add(listener);
    return () => this.drawn.delete(listener);
  };
}
