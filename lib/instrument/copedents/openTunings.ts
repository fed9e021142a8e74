import type { Chart } from "../chart/Chart";
import { readChart } from "../chart/readChart";

/**
 * Six strings tuned to a chord, under a bar: lap steels and resonator guitars. Note names: lap-steel.com/lap-steel-tunings
 * and docslib 13354625 (B. Bechtel's page); octaves inferred from the order and the range. Frets: from memory. Grips: none
 * found.
 */
const SOURCE = "lap-steel.com/lap-steel-tunings, docslib 13354625 (B. Bechtel); octaves inferred";
const CHARTS: Readonly<Record<string, Chart>> = {
  "open-d": { name: "Open D, six strings", strings: [62, 57, 54, 50, 45, 38], frets: 24 },
  "open-e": { name: "Open E, six strings", strings: [64, 59, 56, 52, 47, 40], frets: 24 },
  "resonator-g": {
    name: "Resonator, open G with high basses",
    strings: [62, 59, 55, 50, 47, 43],
    frets: 19,
  },
  "open-g": { name: "Open G with low basses, six strings", strings: [62, 59, 55, 50, 43, 38], frets: 24 },
  "open-a": { name: "Open A with high basses, six strings", strings: [64, 61, 57, 52, 49, 45], frets: 24 },
};

export const OPEN_TUNINGS = Object.entries(CHARTS).map(([id, chart]) =>
  readChart({ ...chart, source: SOURCE }, id),
);
