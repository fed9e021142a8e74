import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Hertz } from "@/lib/units/quantities";
import { firstThat } from "../axis/firstThat";
import { ClickSounder } from "./ClickSounder";

/** A stretch of the record, in its frames: the first included, the last not. */
type Stretch = readonly [fromFrame: number, toFrame: number];

/** Clicks on the beats of a record as they are heard, and those that count in. */
export class BeatClicks {
  /** Whether the beats of the record click; those that count in do at any rate. */
  isOn = false;
  private known: BeatGrid | null = null;
  private frames: number[] = [];
  private waiting: { inFrames: number; isFirst: boolean }[] = [];
  private readonly sounder: ClickSounder;

  constructor(private readonly rateHz: Hertz) {
    this.sounder = new ClickSounder(rateHz);
  }

  get beats(): BeatGrid | null {
    return this.known;
  }

  setBeats(beats: BeatGrid | null): void {
    this.known = beats;
    this.frames = beats?.beatsSec.map((sec) => Math.round(sec * this.rateHz)) ?? [];
  }

  /** A click in so many frames from now. */
  schedule(inFrames: number, isFirst: boolean): void {
    this.waiting.push({ inFrames, isFirst });
  }

  /** What is scheduled comes so many times as late, as told from a frame on; before it, when it would have. */
  spread(fromFrame: number, factor: number): void {
    for (const each of this.waiting)
      if (each.inFrames > fromFrame)
        each.inFrames = Math.round(fromFrame + (each.inFrames - fromFrame) * factor);
  }

  /** What is scheduled does not come. */
  drop(): void {
    this.waiting = [];
  }

  /**
   * Has the beats click that lie in what is heard with a portion.
   * @param stretches of the record, as they follow one another from frame `offset` of the portion to its end
   */
  over(stretches: readonly Stretch[], offset: number, count: number): void {
    if (!this.isOn || !this.known) return;
    const heard = stretches.reduce((sum, [from, to]) => sum + Math.max(0, to - from), 0);
    if (heard <= 0) return;
    let passed = 0;
    for (const [from, to] of stretches) {
      const first = firstThat(this.frames.length, (at) => this.frames[at]! >= from);
      for (let index = first; (this.frames[index] ?? Infinity) < to; index += 1) {
        const share = (passed + this.frames[index]! - from) / heard;
        const isFirst = this.known.inBar[index] === 1;
        this.sounder.begin(isFirst, Math.min(count - 1, offset + Math.floor(share * (count - offset))));
      }
      passed += Math.max(0, to - from);
    }
  }

  addTo(into: Float32Array, count: number): void {
    const due = this.waiting.filter(({ inFrames }) => inFrames < count);
    for (const { inFrames, isFirst } of due) this.sounder.begin(isFirst, inFrames);
    this.waiting = this.waiting.filter(({ inFrames }) => inFrames >= count);
    for (const each of this.waiting) each.inFrames -= count;
    this.sounder.addTo(into, count);
  }
}
