import type { Chart } from "../chart/Chart";
import { readChart } from "../chart/readChart";

/** Instruments of the band that are stopped by fingers. Sources and what is from memory stand beside each. Frets: from memory. */
const CHARTS: Readonly<Record<string, Chart>> = {
  guitar: {
    name: "Guitar, standard tuning",
    source: "well.com/user/wellvis/tuning.html; octaves inferred",
    strings: [64, 59, 55, 50, 45, 40],
    frets: 22,
  },
  "bass-4": {
    name: "Bass, four strings",
    source: "infinitelexicon, E1 A1 D2 G2",
    strings: [43, 38, 33, 28],
    frets: 20,
  },
  "bass-5": {
    name: "Bass, five strings with a low B",
    source: "from memory; strings 1 to 4 as on four strings",
    strings: [43, 38, 33, 28, 23],
    frets: 24,
  },
  banjo: {
    name: "Five-string banjo, open G",
    source:
      "firmchronicle.com, everything2.com (five-string tunings); that string 5 begins at fret 5 from memory",
    strings: [62, 59, 55, 50, { midi: 67, beginsAtFret: 5 }],
    frets: 22,
  },
  mandolin: {
    name: "Mandolin",
    source: "from memory",
    strings: [76, 69, 62, 55],
    frets: 20,
  },
};

export const FRETTED = Object.entries(CHARTS).map(([id, chart]) =>
  readChart({ ...chart, stoppedBy: "fingers" }, id),
);
