import type { AxisStore } from "./AxisStore";
import { scrollAxis } from "./timeAxis";

/** So near to an edge of the lanes a drag takes them along. */
const EDGE_PX = 32;
/** How fast they go where that begins, and how much faster with every pixel further. */
const SLOWEST_PX_PER_SEC = 60;
const FASTER_PX_PER_SEC = 12;
const FASTEST_PX_PER_SEC = 1600;
/** Who wants little motion gets steps instead: so long from one to the next, by this share of the view. */
const STEP_MS = 500;
const STEP_OF_VIEW = 0.25;
/** A frame that came late moves no further than one of this length. */
const LONGEST_FRAME_MS = 100;

/** When the next picture is drawn; a browser's animation frames. */
export interface Frames {
  request(callback: (nowMs: number) => void): number;
  cancel(id: number): void;
}

/**
 * How fast lanes go along with a drag that has come this far into their edges.
 * @param px past where an edge begins; 0 and less is none
 * @returns CSS pixels a second
 */
export function edgePace(px: number): number {
  return px <= 0 ? 0 : Math.min(FASTEST_PX_PER_SEC, SLOWEST_PX_PER_SEC + FASTER_PX_PER_SEC * px);
}

/**
 * Scrolls the lanes while something is dragged at their left or right edge, the faster the further it has come, until it is
 * drawn back or let go. A drag that begins near an edge scrolls only where it goes nearer.
 */
export class EdgeScroll {
  private px = 0;
  private frame: number | null = null;
  private lastMs: number | null = null;
  private again: () => void = () => {};
  private leftPx: number;
  private rightPx: number;

  /**
   * @param fromPx where in the lanes the drag begins
   * @param isStepped whether it goes by steps
   */
  constructor(
    private readonly axis: AxisStore,
    private readonly frames: Frames,
    private readonly isStepped: boolean,
    fromPx: number,
  ) {
    this.leftPx = Math.min(EDGE_PX, fromPx);
    this.rightPx = Math.min(EDGE_PX, axis.now().widthPx - fromPx);
  }

  /**
   * Tells where the drag is now.
   * @param px in the lanes; may lie outside them
   * @param again called after each move of the lanes, to draw what is dragged where it then lies
   */
  follow(px: number, again: () => void): void {
    const { widthPx } = this.axis.now();
    this.px = px;
    this.again = again;
    this.leftPx = Math.max(this.leftPx, Math.min(EDGE_PX, px));
    this.rightPx = Math.max(this.rightPx, Math.min(EDGE_PX, widthPx - px));
    if (this.pace() !== 0 && this.frame === null) this.next();
  }

  /** The drag is over. */
  end(): void {
    if (this.frame !== null) this.frames.cancel(this.frame);
    this.frame = null;
    this.lastMs = null;
  }

  /** Pixels a second, negative to the left. */
  private pace(): number {
    const { widthPx } = this.axis.now();
    return edgePace(this.px - (widthPx - this.rightPx)) - edgePace(this.leftPx - this.px);
  }

  private next(): void {
    this.frame = this.frames.request((nowMs) => this.move(nowMs));
  }

  private move(nowMs: number): void {
    this.frame = null;
    const pace = this.pace();
    if (pace === 0) {
      this.lastMs = null;
      return;
    }
    const sinceMs = nowMs - (this.lastMs ?? nowMs);
    if (!this.isStepped || this.lastMs === null || sinceMs >= STEP_MS) {
      this.lastMs = nowMs;
      const { startSec, widthPx } = this.axis.now();
      const px = this.isStepped
        ? (sinceMs > 0 ? STEP_OF_VIEW : 0) * widthPx * Math.sign(pace)
        : (pace * Math.min(sinceMs, LONGEST_FRAME_MS)) / 1000;
      this.axis.change((now) => scrollAxis(now, px));
      if (this.axis.now().startSec !== startSec) this.again();
    }
    this.next();
  }
}
