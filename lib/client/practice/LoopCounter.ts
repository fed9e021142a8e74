import type { Seconds } from "@/lib/units/quantities";
import { FULL_SPEED } from "./fullSpeed";

/** Of a loop so much must have been heard, from its beginning on, for a time through to count. */
const HEARD_SHARE = 0.9;
/** No record plays faster; with a little room for clocks that are told late. */
const FASTEST = 1.6;
const LATE_SEC: Seconds = 0.25;

/** What a player tells, as far as counting takes. */
export interface LoopMoment {
  /** Seconds of the record. */
  timeSec: Seconds;
  /** A clock that only goes on, in seconds. */
  clockSec: Seconds;
  speed: number;
  isPlaying: boolean;
  loop: { startSec: Seconds; endSec: Seconds } | null;
  /** How often the loop has gone back to its start, by the player's own count. */
  timesThrough: number;
}

/**
 * Tells when a loop was really heard through. A player counts how often it goes back; who jumps to just before the end has
 * not heard it, so what was played in between is added up here.
 */
export class LoopCounter {
  private before: LoopMoment | null = null;
  private heardSec: Seconds = 0;
  private slowest = Number.POSITIVE_INFINITY;

  /**
   * Told of every moment, it answers where one completes a time through.
   * @returns null at all others
   */
  tell(now: LoopMoment): { isFullSpeed: boolean } | null {
    const { before } = this;
    this.before = now;
    if (!before || !now.loop || !isSameLoop(before.loop, now.loop)) {
      this.begin();
      return null;
    }
    // The moment at which the player goes back is told before it is there: what led to it was still heard.
    const playedSec = now.timeSec - before.timeSec;
    const mostSec = (now.clockSec - before.clockSec) * FASTEST + LATE_SEC;
    if (playedSec > mostSec) this.begin();
    else if (before.isPlaying && playedSec > 0) {
      this.heardSec += playedSec;
      this.slowest = Math.min(this.slowest, before.speed, now.speed);
    }
    if (now.timesThrough !== before.timesThrough + 1) return null;
    const isWhole = this.heardSec >= HEARD_SHARE * (now.loop.endSec - now.loop.startSec);
    const isFullSpeed = this.slowest >= FULL_SPEED;
    this.begin();
    return isWhole ? { isFullSpeed } : null;
  }

  private begin(): void {
    this.heardSec = 0;
    this.slowest = Number.POSITIVE_INFINITY;
  }
}

function isSameLoop(a: LoopMoment["loop"], b: LoopMoment["loop"]): boolean {
  return a !== null && b !== null && a.startSec === b.startSec && a.endSec === b.endSec;
}
