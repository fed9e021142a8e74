import type { Seconds } from "@/lib/units/quantities";

/** Tells the time of what plays: on every frame while it plays, and whenever it is asked to. */
export class FrameClock {
  private readonly listeners = new Set<(timeSec: Seconds) => void>();
  private frame = 0;

  constructor(
    private readonly timeSec: () => Seconds,
    /** Done on each frame before the time is told. */
    private readonly onFrame: () => void,
  ) {}

  /** Calls back with the time; returns the way to stop. */
  readonly onTime = (listener: (timeSec: Seconds) => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  run(): void {
    this.stop();
    this.frame = requestAnimationFrame(this.next);
  }

  stop(): void {
    cancelAnimationFrame(this.frame);
  }

  tell(): void {
    for (const listener of this.listeners) listener(this.timeSec());
  }

  close(): void {
    this.stop();
    this.listeners.clear();
  }

  private readonly next = (): void => {
    // First, so that what this frame does can stop the clock.
    this.frame = requestAnimationFrame(this.next);
    this.onFrame();
    this.tell();
  };
}
