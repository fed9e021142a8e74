import fc from "fast-check";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Chart, ChartChange, ChartMoves } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import { SLOTS, type SlotCode } from "@/lib/instrument/chart/slotCode";

const CODES = Object.keys(SLOTS) as SlotCode[];
const IDS = ["A", "B", "C", "F", "E", "V", "X", "G", "P5", "Lk1", "raise4", "q"];

const moves = (stringCount: number): fc.Arbitrary<ChartMoves> =>
  fc
    .array(fc.tuple(fc.integer({ min: 1, max: stringCount }), fc.integer({ min: -3, max: 3 })), {
      maxLength: 4,
    })
    .map((pairs) => Object.fromEntries(pairs.filter(([, by]) => by !== 0)));

const changes = (stringCount: number): fc.Arbitrary<ChartChange[]> =>
  fc
    .tuple(
      fc.shuffledSubarray(CODES, { maxLength: 6 }),
      fc.shuffledSubarray(IDS, { minLength: 6 }),
      fc.array(fc.array(moves(stringCount), { minLength: 1, maxLength: 2 }), { minLength: 6, maxLength: 6 }),
    )
    .map(([slots, ids, stages]) =>
      slots.map((slot, at): ChartChange => {
        const [only = {}, ...deeper] = stages[at] ?? [];
        const id = ids[at] ?? "A";
        return deeper.length === 0 ? { id, slot, moves: only } : { id, slot, stages: [only, ...deeper] };
      }),
    );

/** Charts of two to ten strings with up to six pedals and levers, half stops, splits and re-entrant order. */
export const anyChart: fc.Arbitrary<Chart> = fc.integer({ min: 2, max: 10 }).chain((stringCount) =>
  fc.record(
    {
      strings: fc.array(fc.integer({ min: 30, max: 80 }), { minLength: stringCount, maxLength: stringCount }),
      frets: fc.integer({ min: 12, max: 24 }),
      changes: changes(stringCount),
      split: fc.uniqueArray(fc.integer({ min: 1, max: stringCount }), { maxLength: stringCount }),
      name: fc.constantFrom("Mine", "Hers, with a lock"),
      stoppedBy: fc.constantFrom("bar" as const, "fingers" as const),
      grips: fc.array(
        fc.uniqueArray(fc.integer({ min: 1, max: stringCount }), { minLength: 2, maxLength: 3 }),
        { maxLength: 3 },
      ),
    },
    { requiredKeys: ["strings"] },
  ),
);

/** The same, read. */
export const anyCopedent: fc.Arbitrary<Copedent> = anyChart.map((chart) => readChart(chart));
