import { readChart } from "../chart/readChart";

/**
 * The ten-string C6 pedal steel, on most guitars the second neck: its pedals are the fourth to the eighth of the floor.
 *
 * Note names and pedals: steelc6th.com/tabs/c6th_pedal_steel/tabs.htm (D. Stewart). Octaves: from larrybell.org/id24.htm,
 * by which strings 4 to 12 of a universal are strings 2 to 10 of this neck a half step lower. String 1 is G4 here; on
 * some guitars it is D4 (from memory). Pedal 5 also raises string 10, as it often does.
 * Levers: the same pages and b0bletter.blogspot.com (2010, 2011), which say that their places vary; these places are
 * from memory. Grips and the rest of the foot: nothing found.
 */
export const C6 = readChart(
  {
    name: "C6, ten strings, five pedals and four levers",
    source:
      "steelc6th.com (D. Stewart), b0bletter.blogspot.com; octaves larrybell.org; lever places from memory",
    strings: [67, 64, 60, 57, 55, 52, 48, 45, 41, 36],
    frets: 24,
    changes: [
      { id: "P4", label: "pedal 4", slot: "P4", moves: { 4: 2, 8: 2 } },
      { id: "P5", label: "pedal 5", slot: "P5", moves: { 5: -1, 9: 1, 10: 2 } },
      { id: "P6", label: "pedal 6", slot: "P6", moves: { 2: 1, 6: -1 } },
      { id: "P7", label: "pedal 7", slot: "P7", moves: { 3: 2, 4: 2 } },
      { id: "P8", label: "pedal 8", slot: "P8", moves: { 7: 1, 9: -1, 10: -3 } },
      { id: "LKL", label: "A-raise lever", slot: "LKL", moves: { 4: 1, 8: 1 } },
      { id: "LKR", label: "A-lower lever", slot: "LKR", moves: { 4: -1 } },
      { id: "RKL", label: "C-lower lever", slot: "RKL", moves: { 3: -1 } },
      { id: "RKR", label: "C-raise lever", slot: "RKR", moves: { 3: 1 } },
    ],
  },
  "c6",
);
