import type { HearingProgress, HearingStep } from "./Hearing";

/** Thrown out of hearing when the caller's `shouldStop` says so. Nothing is kept; the record can be heard again. */
export class HearingStopped extends Error {
  constructor(step: HearingStep) {
    super(`Hearing was stopped during "${step}". Nothing was kept; start it again to hear the record.`);
    this.name = "HearingStopped";
  }
}

/** Tells the caller how far hearing is, and asks whether to go on. */
export class HearingWatch {
  private readonly onProgress: HearingProgress | undefined;
  private readonly shouldStop: (() => boolean) | undefined;
  private step: HearingStep = "tuning";
  private told = -1;

  constructor(onProgress?: HearingProgress, shouldStop?: () => boolean) {
    this.onProgress = onProgress;
    this.shouldStop = shouldStop;
  }

  /** Begins a step, at fraction 0. */
  begin(step: HearingStep): void {
    this.step = step;
    this.told = -1;
    this.at(0);
  }

  /**
   * Reports a fraction (0 to 1) of the step now under way, at most once for each hundredth.
   * @throws HearingStopped when the caller asked to stop
   */
  at(fraction: number): void {
    if (this.shouldStop?.()) throw new HearingStopped(this.step);
    const hundredth = Math.floor(Math.min(1, fraction) * 100);
    if (hundredth <= this.told) return;
    this.told = hundredth;
    this.onProgress?.(this.step, hundredth / 100);
  }

  /**
   * A reporter for loops: turn `index` of `count`, mapped on `from` to `to` of the step.
   * @param every asks and tells only once in so many turns
   */
  span(from: number, to: number, every = 64): (index: number, count: number) => void {
    return (index, count) => {
      if (index % every === 0) this.at(from + ((to - from) * index) / Math.max(1, count));
    };
  }
}
