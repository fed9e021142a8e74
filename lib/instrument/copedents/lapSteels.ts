import type { Chart } from "../chart/Chart";
import { readChart } from "../chart/readChart";

/**
 * Lap steels in sixth and thirteenth tunings, strings as the player counts them. Note names as each source has them; such
 * charts usually leave out octaves, which are inferred from the order and the range where it does not say otherwise.
 * Frets: from memory. Grips differ with every tuning and none were found.
 */
const INFERRED = "octaves inferred";
const CHARTS: Readonly<Record<string, Chart>> = {
  "lap-c6": {
    name: "Lap steel C6, six strings",
    source: "leylines.no-ip.org t=367418 (string 2 is middle C)",
    strings: [64, 60, 57, 55, 52, 48],
  },
  "lap-c6-8": {
    name: "Lap steel C6, eight strings",
    source: `gregcutshaw.com, C6 and A6 lap steel; ${INFERRED}`,
    strings: [64, 60, 57, 55, 52, 48, 45, 43],
  },
  "lap-c6a7-8": {
    name: "Lap steel C6/A7, eight strings with G on top",
    source: `sgforum.b0b.com t=5697; ${INFERRED}`,
    strings: [67, 64, 60, 57, 55, 52, 49, 48],
  },
  "lap-c6a7-8-low": {
    name: "Lap steel C6/A7, eight strings with a low A",
    source: `sgforum.b0b.com t=5697; ${INFERRED}`,
    strings: [64, 60, 57, 55, 52, 49, 48, 45],
  },
  "lap-c13-8": {
    name: "Lap steel C13, eight strings",
    source: `gregcutshaw.com, C6 and A6 lap steel; ${INFERRED}`,
    strings: [64, 60, 57, 55, 52, 48, 46, 43],
  },
  "lap-a6-8": {
    name: "Lap steel A6, eight strings",
    source: `gregcutshaw.com, C6 and A6 lap steel; ${INFERRED}`,
    strings: [64, 61, 57, 54, 52, 49, 45, 42],
  },
  "lap-e13": {
    name: "Lap steel E13, six strings",
    source: `papadafoe.com/lap-steel-tuning-database (A. Revich); ${INFERRED}`,
    strings: [64, 61, 56, 52, 50, 47],
  },
  "lap-e13-10": {
    name: "Lap steel E13, ten strings",
    source: `leylines.no-ip.org p=1885369; ${INFERRED}`,
    strings: [68, 66, 64, 61, 59, 56, 54, 52, 50, 47],
  },
};

export const LAP_STEELS = Object.entries(CHARTS).map(([id, chart]) => readChart({ ...chart, frets: 24 }, id));
