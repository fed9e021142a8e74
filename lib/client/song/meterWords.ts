import type { GridRecord } from "@/lib/document/records/records";
import type { Seconds } from "@/lib/units/quantities";
import { barAt, type SongGrid } from "../axis/songGrid";
import { clockText, sureText } from "../format/format";
import { SAME_MOMENT_SEC } from "./sameMoment";

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

/** Where no steady beat is played, in a sentence; empty where there is always one. */
export function freeWords(
  { freeStretches }: { freeStretches: readonly { startSec: Seconds; endSec: Seconds }[] },
  grid: SongGrid,
): string {
  if (freeStretches.length === 0) return "";
  const places = freeStretches.map(({ startSec, endSec }) => {
    const [from, to] = [
      barAt(grid, startSec + SAME_MOMENT_SEC)?.number,
      barAt(grid, endSec - SAME_MOMENT_SEC)?.number,
    ];
    if (from === undefined || to === undefined || from < 1) return `until ${clockText(endSec)}`;
    return from === to ? `in bar ${from}` : `from bar ${from} to ${to}`;
  });
  return `Free time ${places.join(", ")}.`;
}

/** Beats and bars apart: where the one is sure, the other need not be. Null where the machine's word counts no more. */
export function gridSureWords({ mark, beatsConfidence, barsConfidence }: GridRecord): string | null {
  if (mark === "ink" || beatsConfidence === null || barsConfidence === null) return null;
  return `beats ${sureText(beatsConfidence)}, bars ${sureText(barsConfidence)} sure`;
}

const NUMBERS: Readonly<Record<number, string>> = { 2: "two", 3: "three", 4: "four" };
