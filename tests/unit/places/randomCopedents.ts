import fc from "fast-check";
import type { Change, Copedent, Slot } from "@/lib/instrument/Copedent";

const knee = (which: "left" | "right", way: "left" | "right" | "up"): Slot => ({
  kind: "knee",
  knee: which,
  throw: way,
});

/** Every slot of an inline chart, floor pedals from left to right, and a lock. */
const SLOTS: readonly Slot[] = [
  ...Array.from({ length: 10 }, (_, place): Slot => ({ kind: "pedal", place })),
  knee("left", "left"),
  knee("left", "up"),
  knee("left", "right"),
  knee("right", "left"),
  knee("right", "right"),
  { kind: "lock" },
];
const NAMES = "ABCDEFGHIJKLMNOP";

/** Instruments of three to seven strings with up to six changes: raises, lowers, splits, stages, pedals, knees, locks. */
export const randomCopedents: fc.Arbitrary<Copedent> = fc
  .record({
    open: fc.array(fc.integer({ min: 40, max: 70 }), { minLength: 3, maxLength: 7 }),
    slots: fc.uniqueArray(fc.integer({ min: 0, max: SLOTS.length - 1 }), { minLength: 0, maxLength: 6 }),
    moves: fc.array(
      fc.array(
        fc.record({ string: fc.integer({ min: 1, max: 7 }), by: fc.constantFrom(-3, -2, -1, 1, 1, 2, 2, 3) }),
        {
          minLength: 1,
          maxLength: 3,
        },
      ),
      { minLength: 6, maxLength: 6 },
    ),
    staged: fc.array(fc.constantFrom(0, 0, 1, 2), { minLength: 6, maxLength: 6 }),
    splits: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { maxLength: 4 }),
    fretCount: fc.integer({ min: 5, max: 24 }),
  })
  .map(({ open, slots, moves, staged, splits, fretCount }) => {
    const count = open.length;
    const changes = slots.map((slot, index): Change => {
      const last: Record<number, number> = {};
      for (const { string, by } of moves[index]!) if (string <= count) last[string] = by;
      const [first = 1] = Object.keys(last).map(Number);
      // A felt half stop on the way, or one that stops short of nothing: some strings come to the same there already.
      const half: Record<number, number> = { ...last, [first]: Math.sign(last[first] ?? 1) };
      const stages =
        staged[index] === 1 ? [half, last] : staged[index] === 2 ? [half, last, { ...last, 1: 4 }] : [last];
      const id = NAMES[index]!;
      return { id, label: `change ${id}`, slot: SLOTS[slot]!, stages };
    });
    return {
      id: "random",
      name: "random",
      source: "",
      stoppedBy: "bar",
      strings: open.map((openMidi, index) => ({ number: index + 1, openMidi })),
      changes,
      splits: splits.filter((string) => string <= count),
      combinations: [],
      footRest: [0, 1],
      grips: [],
      fretCount,
    };
  });
