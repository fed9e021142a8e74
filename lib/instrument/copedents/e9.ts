import type { Chart, ChartChange } from "../chart/Chart";
import { readChart } from "../chart/readChart";

/**
 * The ten-string E9 pedal steel, three floor pedals and the usual knee levers.
 *
 * Strings: note names b0b.com/wp/copedents/understanding-e9th (B. Lee) and guitarlicks.net
 * pedal-steel-guitar-basics; octaves steelguitaramerica.com/instruction/tuning. Pedals: the same two.
 * Levers: F, E, G guitarlicks.net; D with its second stage steelc6th.com (D. Stewart 2015); V henrysenior.co.uk;
 * X howcast.com lesson 512259. Letters and places differ from player to player; these letters are a local choice
 * and ids mean the effect. X and G are both described at the right knee's left throw; X has it here, and G stands
 * at the right vertical lever (place of G: from memory).
 *
 * Splits (a raise and a lower at once on one string give their sum): string 6, X with B, howcast.com lesson
 * 512264; string 5, V with A, the same lesson and b0b.com/tunings/baucum.htm (L. Baucum 1997); string 10 follows
 * string 5, its octave, as calculated from the tuning. A split is adjusted on the single guitar, never certain.
 *
 * Rest of the foot: pedalsteel.com tea/ank/ankle.html. Grips: dmajor7.com/pedal-steel-guitar-chord-chart.
 */
const STRINGS = [66, 63, 68, 64, 59, 56, 54, 52, 50, 47];
const GRIPS = [
  [3, 4, 5],
  [4, 5, 6],
  [5, 6, 8],
  [6, 8, 10],
];
const A: ChartChange = { id: "A", label: "A pedal", slot: "P1", moves: { 5: 2, 10: 2 } };
const B: ChartChange = { id: "B", label: "B pedal", slot: "P2", moves: { 3: 1, 6: 1 } };
const C: ChartChange = { id: "C", label: "C pedal", slot: "P3", moves: { 4: 2, 5: 2 } };
const F: ChartChange = { id: "F", label: "E-raise lever", slot: "LKL", moves: { 4: 1, 8: 1 } };
const E: ChartChange = { id: "E", label: "E-lower lever", slot: "LKR", moves: { 4: -1, 8: -1 } };
const V: ChartChange = { id: "V", label: "B-lower lever", slot: "LKV", moves: { 5: -1, 10: -1 } };
const D: ChartChange = {
  id: "D",
  label: "second-string lower lever",
  slot: "RKR",
  stages: [{ 2: -1 }, { 2: -2, 9: -1 }],
};
const X: ChartChange = { id: "X", label: "sixth-string lower lever", slot: "RKL", moves: { 6: -2 } };
const G: ChartChange = { id: "G", label: "F-sharp raise lever", slot: "RKV", moves: { 1: 1, 7: 1 } };

const CHART: Chart = {
  name: "E9, ten strings, three pedals and six levers",
  source:
    "b0b.com (B. Lee), guitarlicks.net, steelguitaramerica.com, steelc6th.com (D. Stewart), howcast.com",
  strings: STRINGS,
  frets: 24,
  changes: [A, B, C, F, E, V, D, X, G],
  split: [5, 6, 10],
  footRest: [1, 2],
  grips: GRIPS,
};

/** Pedals in A-B-C order. */
export const E9 = readChart(CHART, "e9");

/**
 * The same pitches with the pedals in C-B-A order: playpedalsteel.com, article on the two pedal orders, and
 * pedalsteelmusic.com/?p=821 (B. Hempker). Where levers stand in that order is not in what was found: they stand as
 * above, and the foot rests over the same two pedals.
 */
export const E9_CBA = readChart(
  {
    ...CHART,
    name: "E9, ten strings, pedals in C-B-A order",
    source: `${CHART.source}; order playpedalsteel.com, pedalsteelmusic.com (B. Hempker)`,
    changes: [{ ...A, slot: "P3" }, B, { ...C, slot: "P1" }, F, E, V, D, X, G],
    footRest: [2, 3],
  },
  "e9-cba",
);

/**
 * The smallest set that teaching books share, three pedals and three levers: b0b.com/wp/copedents/understanding-e9th
 * (B. Lee) and pedalsteel.fr, workshop on copedents. The second string goes down a half step, without a second stage.
 */
export const E9_SMALL = readChart(
  {
    ...CHART,
    name: "E9, ten strings, three pedals and three levers",
    source: "b0b.com (B. Lee), pedalsteel.fr, steelguitaramerica.com",
    changes: [A, B, C, F, E, { id: "D", label: "second-string lower lever", slot: "RKR", moves: { 2: -1 } }],
    split: [],
  },
  "e9-small",
);
