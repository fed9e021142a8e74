import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Gathered, gather, NOTHING_GATHERED, notesOf } from "@/lib/client/entry/gatherNotes";
import type { KeyMessage } from "@/lib/client/entry/midiMessage";

type Stroke = [atMs: number, kind: "down" | "up", midi: number, channel?: number, keyboard?: string];

function play(...strokes: Stroke[]): Gathered {
  return strokes.reduce(
    (now, [atMs, kind, midi, channel = 0, keyboard = "one"]) =>
      gather(now, keyboard, { kind, channel, midi }, atMs),
    NOTHING_GATHERED,
  );
}
const notes = (...strokes: Stroke[]) => notesOf(play(...strokes));

describe("notes played in", () => {
  it("held together are one set, in whatever order they came, and the set is there with each key", () => {
    expect(notes([0, "down", 71])).toEqual([71]);
    expect(notes([0, "down", 71], [20, "down", 67])).toEqual([67, 71]);
    expect(notes([0, "down", 67], [900, "down", 71], [2500, "down", 59])).toEqual([59, 67, 71]);
  });

  it("stay when the keys are let go, one after the other or all at once", () => {
    expect(notes([0, "down", 71], [20, "down", 67], [500, "up", 71], [900, "up", 67])).toEqual([67, 71]);
  });

  it("make way for the next key struck on its own", () => {
    expect(notes([0, "down", 71], [500, "up", 71], [1000, "down", 64])).toEqual([64]);
  });

  it("are joined by those struck while some are still down; those let go before leave", () => {
    expect(
      notes([0, "down", 60], [10, "down", 64], [500, "up", 60], [900, "down", 67], [1500, "up", 64]),
    ).toEqual([64, 67]);
  });

  it("struck together count together though a finger leaves before the last comes", () => {
    expect(notes([0, "down", 60], [30, "up", 60], [40, "down", 64], [400, "up", 64])).toEqual([60, 64]);
  });

  it("bound one to the next are no chord", () => {
    expect(notes([0, "down", 60], [500, "down", 62], [530, "up", 60])).toEqual([62]);
    expect(notes([0, "down", 60], [500, "down", 62], [700, "up", 60])).toEqual([60, 62]);
  });

  it("struck again while they are down stand once", () => {
    expect(notes([0, "down", 60], [500, "down", 60])).toEqual([60]);
    expect(notes([0, "down", 60], [500, "down", 60, 1])).toEqual([60]);
  });

  it("of two channels and keyboards are held apart: each lets its own go", () => {
    const held = play([0, "down", 60], [10, "down", 60, 1], [20, "down", 60, 0, "two"], [500, "up", 60]);
    expect(held.held.map(({ id }) => id)).toEqual(["one/1/60", "two/0/60"]);
  });

  it("are let go with their channel, and with their keyboard when it goes", () => {
    const held = play([0, "down", 60], [10, "down", 64, 1], [20, "down", 67, 0, "two"]);
    const channel = gather(held, "one", { kind: "allUp", channel: 1 }, 500);
    expect(channel.held.map(({ midi }) => midi)).toEqual([60, 67]);
    const keyboard = gather(channel, "one", { kind: "allUp", channel: null }, 600);
    expect(keyboard.held.map(({ midi }) => midi)).toEqual([67]);
    expect(notesOf(keyboard)).toEqual([60, 64, 67]);
  });

  it("always hold what is down, and nothing is down that was let go", () => {
    const message = fc.record({
      kind: fc.constantFrom("down" as const, "up" as const),
      channel: fc.integer({ min: 0, max: 1 }),
      midi: fc.integer({ min: 60, max: 64 }),
    });
    const played = fc.array(fc.tuple(message, fc.integer({ min: 0, max: 200 })), { maxLength: 40 });
    fc.assert(
      fc.property(played, (messages) => {
        let now = NOTHING_GATHERED;
        let atMs = 0;
        const down = new Set<string>();
        for (const [each, waitMs] of messages) {
          atMs += waitMs;
          now = gather(now, "one", each satisfies KeyMessage, atMs);
          const id = `one/${each.channel}/${each.midi}`;
          if (each.kind === "down") down.add(id);
          else down.delete(id);
          expect(new Set(now.held.map((key) => key.id))).toEqual(down);
          if (each.kind === "down") expect(notesOf(now)).toContain(each.midi);
        }
      }),
    );
  });
});
