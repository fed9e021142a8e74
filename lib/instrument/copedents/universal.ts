import { readChart } from "../chart/readChart";

/**
 * The universal twelve-string: E9, and B6 with the lock on. Chart: b0b.com/tunings, single-neck 12-string factory
 * universal; how the two necks follow from one another: larrybell.org/id24.htm. Octaves follow from E9's, whose strings
 * 1 to 8 these are, and from the order of the strings.
 *
 * The lock lowers strings 4 and 8 until it is let off, as lever E does while it is held. Pedal 6 is told against it:
 * string 4 then comes back to its open E, which is a combination here; string 8 is lowered two half steps from E, of
 * which the lock has done one. Where a raise and a lower meet, as A and V on strings 5 and 9, no split is in the chart,
 * so that the pitch is not depended on. Grips: those of E9 on the same pitches. Rest of the foot: nothing found for both necks together.
 */
export const UNIVERSAL = readChart(
  {
    name: "Universal, twelve strings, E9 and B6",
    source: "b0b.com/tunings (12-string factory universal), larrybell.org/id24.htm",
    strings: [66, 63, 68, 64, 59, 56, 54, 52, 47, 44, 40, 35],
    frets: 24,
    changes: [
      { id: "A", label: "A pedal", slot: "P1", moves: { 5: 2, 9: 2 } },
      { id: "B", label: "B pedal", slot: "P2", moves: { 3: 1, 6: 1, 10: 1 } },
      { id: "C", label: "C pedal", slot: "P3", moves: { 4: 2, 5: 2 } },
      { id: "P4", label: "pedal 4", slot: "P4", moves: { 6: 2, 10: 2 } },
      { id: "P5", label: "pedal 5", slot: "P5", moves: { 1: 1, 7: -1, 11: 1, 12: 2 } },
      { id: "P6", label: "pedal 6", slot: "P6", moves: { 8: -2 } },
      { id: "P7", label: "pedal 7", slot: "P7", moves: { 5: 2, 6: 2 } },
      { id: "P8", label: "pedal 8", slot: "P8", moves: { 9: 1, 11: -1, 12: -3 } },
      { id: "F", label: "E-raise lever", slot: "LKL", moves: { 4: 1, 8: 1 } },
      { id: "G", label: "F-sharp raise lever", slot: "LKV", moves: { 1: 1, 7: 1 } },
      { id: "E", label: "E-lower lever", slot: "LKR", moves: { 4: -1, 8: -1 } },
      { id: "L", label: "lock into B6", slot: "LOCK", moves: { 4: -1, 8: -1 } },
      { id: "V", label: "B-lower lever", slot: "RKL", moves: { 5: -1, 9: -1 } },
      { id: "D", label: "second-string lower lever", slot: "RKR", moves: { 2: -1, 9: 3 } },
    ],
    combinations: [
      { string: 4, stages: ["P6", "E"], semitones: 0 },
      { string: 4, stages: ["P6", "L"], semitones: 0 },
    ],
    grips: [
      [3, 4, 5],
      [4, 5, 6],
      [5, 6, 8],
      [6, 8, 9],
    ],
  },
  "u12",
);
