/** How a bar is counted, short: `4/4`, `6/8 in two`, `4/4 swung`. Six beats are read as eighths. */
export function meterText(beatsPerBar: number, division: 2 | 3): string {
  if (beatsPerBar === 6) return "6/8";
  if (division === 2) return `${beatsPerBar}/4`;
  return beatsPerBar === 2 ? "6/8 in two" : `${beatsPerBar}/4 swung`;
}

/** The same in a sentence; empty where beats are divided in two, which needs no word. */
export function divisionWords(beatsPerBar: number, division: 2 | 3): string {
  if (beatsPerBar === 6) return "Six eighths to the bar, each counted.";
  if (division === 2) return "";
  if (beatsPerBar === 2) return "Each beat falls into three: 6/8, counted in two.";
  const eighths = beatsPerBar * 3;
  return `Each beat falls into three: it swings, or is ${eighths}/8 counted in ${NUMBERS[beatsPerBar] ?? beatsPerBar}.`;
}

const NUMBERS: Readonly<Record<number, string>> = { 2: "two", 3: "three", 4: "four" };
