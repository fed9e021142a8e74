import { afterEach, describe, expect, it, vi } from "vitest";
import type { Desk, LaidOut } from "@/app/songs/[songId]/parts/DeskContext";
import { passageActs } from "@/app/songs/[songId]/parts/passageActs";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import type { PlacedPassage } from "@/lib/client/song/placePassage";
import { C6 } from "@/lib/instrument/copedents/c6";
import { E9 } from "@/lib/instrument/copedents/e9";

const ANSWER = { ways: [{ events: [{}] }], leftOutCount: 0 } as unknown as PlacedPassage;
const NOTE = { id: "n", startSec: 1, endSec: 2, midi: 67, glides: [], confidence: null };
const SONG = { notes: [NOTE], part: [], changes: [], homes: [], sections: [], bass: [] };

/** A desk with one heard note selected, which by the time of the answer is as `later` says. */
function deskThen(later: Partial<Desk>) {
  const said: (string | null)[] = [];
  const laid: (LaidOut | null)[] = [];
  const writeBefore = vi.fn(() => ["before"]);
  const writeNow = vi.fn(() => ["now"]);
  let now: Desk;
  const desk = {
    now: () => now,
    ...{ page: { me: { id: "ann" } }, opened: { song: SONG }, grid: null, laidOut: null },
    ...{
      selection: { kind: "span", startSec: 0, endSec: 4 },
      copedent: E9,
      parts: { atHand: { id: "part" } },
    },
    ...{ mayWrite: true, mayWritePart: true, writePart: writeBefore },
    layOut: (passage: LaidOut | null) => laid.push(passage),
    say: (words: string | null) => said.push(words),
  } as unknown as Desk;
  now = desk;
  vi.spyOn(placeFinder(), "passage").mockImplementation(async () => {
    now = { ...desk, writePart: writeNow, ...later };
    return ANSWER;
  });
  return { desk, said, laid, writeBefore, writeNow };
}

afterEach(() => void vi.restoreAllMocks());

describe("a passage that was laid out while one waited", () => {
  it("is written where the part is on the same guitar still, though read anew", async () => {
    const { desk, laid, writeBefore, writeNow } = deskThen({ copedent: structuredClone(E9) });
    await passageActs(desk).write();
    expect([writeBefore.mock.calls.length, writeNow.mock.calls.length]).toEqual([0, 1]);
    expect(laid).toMatchObject([{ copedent: E9, ids: [["now"]] }]);
  });

  it("is not written into a part that went to another guitar meanwhile", async () => {
    const { desk, said, laid, writeBefore, writeNow } = deskThen({ copedent: C6 });
    await passageActs(desk).write();
    expect([writeBefore.mock.calls.length, writeNow.mock.calls.length, laid.length]).toEqual([0, 0, 0]);
    expect(said).toEqual([expect.stringMatching(/another guitar.+Nothing was written/)]);
  });

  it("is not written into another part that has come to hand meanwhile", async () => {
    const parts = { atHand: { id: "fiddle" } } as Desk["parts"];
    const { desk, said, laid, writeBefore, writeNow } = deskThen({ parts });
    await passageActs(desk).write();
    expect([writeBefore.mock.calls.length, writeNow.mock.calls.length, laid.length]).toEqual([0, 0, 0]);
    expect(said).toEqual([expect.stringMatching(/Another part.+Nothing was written/)]);
  });

  it("is not written where the part may not be written by now", async () => {
    const refuse = vi.fn(() => null);
    const { desk, laid, writeBefore } = deskThen({ copedent: C6, mayWritePart: false, writePart: refuse });
    await passageActs(desk).write();
    expect([writeBefore.mock.calls.length, refuse.mock.calls.length, laid.length]).toEqual([0, 1, 0]);
  });

  it("is not written another way once the part is on another guitar", () => {
    const { desk, said, writeBefore } = deskThen({});
    const laidOut = { startSec: 0, endSec: 4, copedent: C6, ways: ANSWER.ways, ids: [[]], leftOutCount: 0 };
    passageActs({ ...desk, laidOut }).choose(0);
    expect(writeBefore).not.toHaveBeenCalled();
    expect(said).toEqual([expect.stringMatching(/another guitar/)]);
  });
});
