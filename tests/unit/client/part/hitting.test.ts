import { describe, expect, it } from "vitest";
import { hitPart } from "@/app/songs/[songId]/parts/partHit";
import { shown } from "./anyPart";

/** At 100 px a second: cells at 100 and 200 px on string 5, the first ending where the second begins. */
const part = [
  shown("a", 1, { endSec: 2, strings: [5] }),
  shown("b", 2, { endSec: 3, strings: [5] }),
  shown("c", 1, { endSec: 2, strings: [8] }),
];
const at = (px: number, string = 5, isTouch = false) => {
  const hit = hitPart(part, { string, timeSec: px / 100 }, 100, isTouch);
  return hit && `${hit.event.id} ${hit.zone}`;
};

describe("what lies under a pointer in the part", () => {
  it("is a cell about where its event begins, on its own strings", () => {
    expect([at(94), at(100), at(120)]).toEqual(["a cell", "a cell", "a cell"]);
    expect([at(91), at(150), at(100, 4)]).toEqual([null, null, null]);
    expect(at(100, 8)).toBe("c cell");
  });

  it("is an end a little before it and behind, more of it for a finger; a cell that begins there goes first", () => {
    expect([at(191), at(198), at(295), at(304), at(306)]).toEqual([
      "a end",
      "b cell",
      "b end",
      "b end",
      null,
    ]);
    expect([at(285), at(285, 5, true)]).toEqual([null, "b end"]);
  });
});
