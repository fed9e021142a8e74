import { describe, expect, it, vi } from "vitest";
import { AxisStore } from "@/lib/client/axis/AxisStore";
import { EdgeScroll, edgePace } from "@/lib/client/axis/EdgeScroll";

/** Lanes 1000 px wide, ten seconds of a hundred in view, from second 50 on; frames that come when they are told to. */
function lanes(fromPx = 500, isStepped = false) {
  const axis = new AxisStore(100);
  axis.measure(1000);
  axis.change((now) => ({ ...now, startSec: 50 }));
  let waiting: ((ms: number) => void) | null = null;
  let nowMs = 0;
  const frames = {
    request(callback: (ms: number) => void) {
      waiting = callback;
      return 1;
    },
    cancel() {
      waiting = null;
    },
  };
  const play = (count: number, everyMs = 20) => {
    for (let frame = 0; frame < count; frame++) {
      const callback = waiting;
      waiting = null;
      nowMs += everyMs;
      callback?.(nowMs);
    }
  };
  return {
    axis,
    play,
    edge: new EdgeScroll(axis, frames, isStepped, fromPx),
    isWaiting: () => waiting !== null,
  };
}

describe("a drag at the edge of the lanes", () => {
  it("takes them along, the faster the further it has come", () => {
    expect([edgePace(-5), edgePace(0)]).toEqual([0, 0]);
    expect(edgePace(40)).toBeGreaterThan(edgePace(4));
    const scrolled = (px: number) => {
      const { axis, edge, play } = lanes();
      edge.follow(px, () => {});
      play(51);
      return axis.now().startSec - 50;
    };
    // A second of frames at 100 px a second of the record.
    expect(scrolled(1000 - 32 + 10)).toBeCloseTo(edgePace(10) / 100, 5);
    expect(scrolled(1000)).toBeCloseTo(edgePace(32) / 100, 5);
    expect(scrolled(1100)).toBeGreaterThan(2 * scrolled(1000));
    expect(scrolled(-10)).toBeCloseTo(-edgePace(42) / 100, 5);
    expect(scrolled(500)).toBe(0);
  });

  it("tells after each move what is dragged to be drawn anew, and rests at the end of the record", () => {
    const { axis, edge, play } = lanes();
    const again = vi.fn();
    edge.follow(1100, again);
    play(11);
    // The first frame only says when it is.
    expect(again).toHaveBeenCalledTimes(10);
    play(500);
    expect(axis.now().startSec).toBe(90);
    again.mockClear();
    play(10);
    expect(again).not.toHaveBeenCalled();
  });

  it("stops when it is drawn back, and when it is over", () => {
    const { axis, edge, play, isWaiting } = lanes();
    edge.follow(1000, () => {});
    play(10);
    edge.follow(700, () => {});
    const { startSec } = axis.now();
    play(10);
    expect(axis.now().startSec).toBe(startSec);
    expect(isWaiting()).toBe(false);
    edge.follow(1000, () => {});
    expect(isWaiting()).toBe(true);
    edge.end();
    expect(isWaiting()).toBe(false);
  });

  it("scrolls only nearer to an edge than where it began, until it has left that", () => {
    const { axis, edge, play } = lanes(10);
    edge.follow(12, () => {});
    play(10);
    expect(axis.now().startSec).toBe(50);
    edge.follow(200, () => {});
    edge.follow(12, () => {});
    play(10);
    expect(axis.now().startSec).toBeLessThan(50);
  });

  it("goes by steps where little motion is wanted", () => {
    const { axis, edge, play } = lanes(500, true);
    edge.follow(1000, () => {});
    play(24);
    expect(axis.now().startSec).toBe(50);
    // Half a second after it came there, a quarter of the ten seconds in view.
    play(4);
    expect(axis.now().startSec).toBe(52.5);
    play(10);
    expect(axis.now().startSec).toBe(52.5);
  });
});
