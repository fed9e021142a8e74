import { describe, expect, it } from "vitest";
import { LoopCounter, type LoopMoment } from "@/lib/client/practice/LoopCounter";

const loop = { startSec: 10, endSec: 14 };
const FRAME_SEC = 1 / 60;

/** A player that is told of frame by frame, as the page's is. */
class Playing {
  private readonly counter = new LoopCounter();
  private clockSec = 100;
  now: Omit<LoopMoment, "clockSec"> = { timeSec: 10, speed: 1, isPlaying: true, loop, timesThrough: 0 };
  counted: { isFullSpeed: boolean }[] = [];

  constructor() {
    this.tell();
  }

  tell(fields: Partial<LoopMoment> = {}): void {
    this.now = { ...this.now, ...fields };
    const through = this.counter.tell({ ...this.now, clockSec: this.clockSec });
    if (through) this.counted.push(through);
  }

  /** Plays on for seconds of the record, over the loop's end where that comes. */
  play(seconds: number, frameSec = FRAME_SEC): void {
    for (let left = seconds; left > 1e-9; left -= frameSec * this.now.speed) {
      this.clockSec += frameSec;
      const timeSec = this.now.timeSec + Math.min(left, frameSec * this.now.speed);
      if (timeSec < loop.endSec) this.tell({ timeSec });
      else {
        this.tell({ timeSec, timesThrough: this.now.timesThrough + 1 });
        this.tell({ timeSec: loop.startSec });
      }
    }
  }

  wait(seconds: number): void {
    this.clockSec += seconds;
  }
}

describe("times through a loop", () => {
  it("count each time that all of it was heard", () => {
    const playing = new Playing();
    playing.play(3.9);
    expect(playing.counted).toEqual([]);
    playing.play(8.2);
    expect(playing.counted).toEqual([{ isFullSpeed: true }, { isFullSpeed: true }, { isFullSpeed: true }]);
  });

  it("do not count for who jumps to just before the end", () => {
    const playing = new Playing();
    for (let jump = 0; jump < 5; jump += 1) {
      playing.tell({ timeSec: 13.8 });
      playing.play(0.3);
    }
    expect(playing.counted).toEqual([]);
    playing.play(4);
    expect(playing.counted).toHaveLength(1);
  });

  it("count where one went back on the way, and paused", () => {
    const playing = new Playing();
    playing.play(2);
    playing.tell({ isPlaying: false });
    playing.wait(60);
    playing.tell({ isPlaying: true });
    playing.tell({ timeSec: playing.now.timeSec - 1 });
    playing.play(3.1);
    expect(playing.counted).toHaveLength(1);
  });

  it("are at full speed only where they never were slower", () => {
    const playing = new Playing();
    playing.tell({ speed: 0.5 });
    playing.play(1);
    playing.tell({ speed: 1 });
    playing.play(7.05);
    expect(playing.counted).toEqual([{ isFullSpeed: false }, { isFullSpeed: true }]);
  });

  it("count in a hidden tab, where moments are told four times a second or once", () => {
    for (const frameSec of [0.25, 1]) {
      const playing = new Playing();
      playing.play(4.01, frameSec);
      expect(playing.counted).toHaveLength(1);
    }
  });

  it("begin anew with another loop", () => {
    const playing = new Playing();
    playing.play(3);
    playing.tell({ loop: { startSec: 12, endSec: 14 }, timesThrough: 0 });
    playing.play(1.05);
    expect(playing.counted).toEqual([]);
  });
});
