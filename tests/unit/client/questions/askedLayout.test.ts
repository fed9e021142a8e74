import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type AskedBox, askedLayout, LEAST_PX, rowsOf } from "@/lib/client/questions/askedLayout";
import { question } from "./question";

const at = (...stretches: [number, number][]) =>
  stretches.map(([startSec, endSec], index) => question({ id: `q${index}`, startSec, endSec }));
const layout = (questions: ReturnType<typeof at>, pxPerSec = 100, scale = 1) =>
  askedLayout(questions, { pxPerSec, rows: rowsOf(questions), scale });
const told = (boxes: readonly AskedBox[]) =>
  boxes.map((box) => (box.kind === "one" ? `${box.question.id} ${box.row}` : box.questions.length));

describe("the boxes of the lane of questions", () => {
  it("stand in one row where nothing overlaps, in up to three where it does", () => {
    expect(told(layout(at([0, 2], [3, 4])))).toEqual(["q0 0", "q1 0"]);
    expect(told(layout(at([0, 6], [1, 4], [2, 5], [4.5, 6])))).toEqual(["q0 0", "q1 1", "q2 2", "q3 1"]);
    expect(rowsOf(at([0, 6], [1, 4], [2, 5]))).toBe(3);
    expect([rowsOf([]), rowsOf(at([0, 2], [3, 4]))]).toEqual([1, 1]);
  });

  it("are never narrower than their sign", () => {
    const [box] = layout(at([4, 4.02]));
    expect((box!.endSec - box!.startSec) * 100).toBeCloseTo(LEAST_PX, 6);
  });

  it("say how many questions there are where there is no room for each", () => {
    // Five within a second, and minutes in view.
    const five = at([10, 10.1], [11, 11.1], [12.5, 12.6], [14, 14.1], [15.5, 15.6], [300, 310]);
    expect(told(layout(five, 1))).toEqual([5, "q5 0"]);
    expect(told(layout(five, 200))).toHaveLength(6);
    // Where text is twice as large, so is every box.
    expect(told(layout(at([0, 1], [2, 3]), 20, 2))).toEqual([2]);
  });

  it("hold every question once, in order, and lie over no other in their row, at any zoom", () => {
    const stretch = fc
      .tuple(fc.double({ min: 0, max: 600, noNaN: true }), fc.double({ min: 0.02, max: 60, noNaN: true }))
      .map(([startSec, length]): [number, number] => [startSec, startSec + length]);
    fc.assert(
      fc.property(fc.array(stretch, { maxLength: 60 }), fc.integer({ min: 1, max: 400 }), (drawn, zoom) => {
        const questions = at(...drawn.sort((a, b) => a[0] - b[0]));
        const boxes = layout(questions, zoom);
        const held = boxes.flatMap((box) => (box.kind === "one" ? [box.question] : box.questions));
        expect(held).toEqual(questions);
        const untilSec = new Map<number, number>();
        for (const box of boxes) {
          expect((box.endSec - box.startSec) * zoom).toBeGreaterThan(LEAST_PX - 1e-6);
          const row = box.kind === "one" ? box.row : 0;
          expect(row).toBeLessThan(rowsOf(questions));
          expect(box.startSec).toBeGreaterThanOrEqual((untilSec.get(row) ?? 0) - 1e-6);
          untilSec.set(row, box.endSec);
        }
      }),
    );
  });
});
