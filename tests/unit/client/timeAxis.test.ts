import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  drawnStretch,
  fitPxPerSec,
  followPlayhead,
  keepInView,
  pxToSec,
  scrollAxis,
  secToPx,
  settleAxis,
  showStretch,
  type TimeAxis,
  viewSec,
  zoomAxis,
} from "@/lib/client/axis/timeAxis";

const AXIS: TimeAxis = { startSec: 4, pxPerSec: 100, widthPx: 800, durationSec: 60 };

const anyAxis = fc
  .record({
    startSec: fc.double({ min: 0, max: 300, noNaN: true }),
    pxPerSec: fc.double({ min: 1, max: 800, noNaN: true }),
    widthPx: fc.integer({ min: 100, max: 3000 }),
    durationSec: fc.double({ min: 1, max: 300, noNaN: true }),
  })
  .map(settleAxis);

describe("the time axis", () => {
  it("places a time by its distance from the left edge", () => {
    expect(secToPx(AXIS, 6.5)).toBe(250);
    expect(pxToSec(AXIS, 250)).toBe(6.5);
  });

  it("gives back the time of a pixel, whatever the axis", () => {
    fc.assert(
      fc.property(anyAxis, fc.double({ min: 0, max: 1, noNaN: true }), (axis, share) => {
        const timeSec = share * axis.durationSec;
        expect(pxToSec(axis, secToPx(axis, timeSec))).toBeCloseTo(timeSec, 6);
      }),
    );
  });

  it("never shows anything before the start or after the end", () => {
    fc.assert(
      fc.property(anyAxis, fc.double({ min: -1e5, max: 1e5, noNaN: true }), (axis, px) => {
        const moved = scrollAxis(axis, px);
        expect(moved.startSec).toBeGreaterThanOrEqual(0);
        if (viewSec(moved) <= moved.durationSec)
          expect(moved.startSec + viewSec(moved)).toBeLessThanOrEqual(moved.durationSec + 1e-6);
      }),
    );
  });

  it("keeps the held time in place while zooming", () => {
    const zoomed = zoomAxis(AXIS, 2, 300);
    expect(zoomed.pxPerSec).toBe(200);
    expect(secToPx(zoomed, 7)).toBeCloseTo(300);
  });

  it("zooms out no further than the whole record", () => {
    const whole = zoomAxis(AXIS, 1e-6, 10);
    expect(whole.pxPerSec).toBeCloseTo(fitPxPerSec(AXIS));
    expect(whole.startSec).toBe(0);
  });

  it("shows a whole stretch", () => {
    const shown = showStretch(AXIS, 20, 30);
    expect(secToPx(shown, 20)).toBeGreaterThan(0);
    expect(secToPx(shown, 30)).toBeLessThan(800);
  });

  it("scrolls only as far as needed to keep a time in view", () => {
    expect(keepInView(AXIS, 8, 50)).toBe(AXIS);
    expect(secToPx(keepInView(AXIS, 20, 50), 20)).toBeCloseTo(750);
    expect(secToPx(keepInView(AXIS, 1, 50), 1)).toBeCloseTo(50);
  });

  it("stays still until the playhead comes to its rest, then glides", () => {
    expect(followPlayhead(AXIS, 5)).toBe(AXIS);
    const glided = followPlayhead(AXIS, 7.25);
    expect(secToPx(glided, 7.25)).toBeCloseTo(320);
  });

  it("shows the playhead again after it left the view", () => {
    const px = secToPx(followPlayhead(AXIS, 50), 50);
    expect(px).toBeGreaterThanOrEqual(0);
    expect(px).toBeLessThan(400);
  });

  it("draws more than is in view, whatever the axis", () => {
    fc.assert(
      fc.property(anyAxis, (axis) => {
        const drawn = drawnStretch(axis);
        expect(drawn.fromSec).toBeLessThanOrEqual(axis.startSec);
        expect(drawn.toSec).toBeGreaterThanOrEqual(axis.startSec + viewSec(axis));
      }),
    );
  });
});
