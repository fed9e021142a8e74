import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { AxisStore } from "@/lib/client/axis/AxisStore";
import { scrollAxis, zoomAxis } from "@/lib/client/axis/timeAxis";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function opened() {
  const axis = new AxisStore(1_200);
  axis.measure(1_000);
  axis.change((now) => scrollAxis(now, 20_000));
  const counts = { drawn: 0, moved: 0 };
  axis.onDraw(() => {
    counts.drawn += 1;
  });
  axis.onMove(() => {
    counts.moved += 1;
  });
  return { axis, counts };
}

it("lanes that scroll are drawn anew once in half a view, and moved each time", () => {
  const { axis, counts } = opened();
  for (let step = 0; step < 100; step++) axis.change((now) => scrollAxis(now, 50));
  expect(counts.moved).toBe(100);
  expect(counts.drawn).toBe(10);
});

it("a zoom that goes on stretches what is drawn, and is drawn anew when it rests", () => {
  const { axis, counts } = opened();
  for (let step = 0; step < 8; step++) axis.glide((now) => zoomAxis(now, 1.05, 500));
  expect(counts).toEqual({ drawn: 0, moved: 8 });
  expect(axis.drawing().pxPerSec).toBeLessThan(axis.now().pxPerSec);
  vi.runAllTimers();
  expect(counts.drawn).toBe(1);
  expect(axis.drawing().pxPerSec).toBe(axis.now().pxPerSec);
});

it("one that goes far is drawn anew on its way, and the drawing always fills the view", () => {
  for (const factor of [1.06, 1 / 1.06]) {
    const { axis, counts } = opened();
    for (let step = 0; step < 40; step++) {
      axis.glide((now) => zoomAxis(now, factor, 500));
      const { startSec, widthPx, pxPerSec, durationSec } = axis.now();
      const drawn = axis.drawing();
      expect(drawn.fromSec).toBeLessThanOrEqual(startSec);
      expect(drawn.toSec).toBeGreaterThanOrEqual(Math.min(durationSec, startSec + widthPx / pxPerSec));
    }
    expect(counts.drawn).toBeGreaterThan(1);
    expect(counts.drawn).toBeLessThan(20);
  }
});

it("a zoom by one step is drawn at once, and no older rest comes after it", () => {
  const { axis, counts } = opened();
  axis.glide((now) => zoomAxis(now, 1.05, 500));
  axis.change((now) => zoomAxis(now, 1.4, 500));
  expect(counts.drawn).toBe(1);
  vi.runAllTimers();
  expect(counts.drawn).toBe(1);
});

it("lanes are drawn at once only where what stands there does not fill the view, or a zoom is one step", () => {
  const { axis } = opened();
  const urgent: boolean[] = [];
  axis.onDraw((isUrgent) => urgent.push(isUrgent));
  axis.change((now) => scrollAxis(now, 600));
  axis.change((now) => scrollAxis(now, 60_000));
  axis.change((now) => zoomAxis(now, 1.4, 500));
  axis.glide((now) => zoomAxis(now, 1.1, 500));
  vi.runAllTimers();
  expect(urgent).toEqual([false, true, true, false]);
});
