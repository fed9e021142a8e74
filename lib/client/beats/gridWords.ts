import { meterRuns, usualMeter } from "@/lib/notation/beats/meter";
import type { FittedTaps } from "@/lib/notation/taps/fitTaps";
import type { SongGrid } from "../axis/songGrid";

/** Runs of bars that are told one by one; of more it is only said that there are. */
const TOLD_RUNS = 4;

/** What was tapped, in a sentence: "16 beats, 96 beats a minute, steady within 14 ms." */
export function tapWords(count: number, fitted: FittedTaps | null): string {
  if (!fitted) return `${count} ${count === 1 ? "tap" : "taps"}. Tap four beats or more.`;
  const { beatsSec, periodSec, isSteady, spreadSec } = fitted;
  const tempo = `${beatsSec.length} beats, ${bpmText(periodSec)} beats a minute`;
  if (isSteady) return `${tempo}, steady: your taps lie within ${Math.round(spreadSec * 1000)} ms.`;
  const paces = beatsSec.slice(1).map((sec, index) => sec - (beatsSec[index] ?? sec));
  return `${tempo}, and the tempo breathes: from ${bpmText(Math.max(...paces))} to ${bpmText(Math.min(...paces))}.`;
}

function bpmText(periodSec: number): string {
  return (60 / periodSec).toFixed(1).replace(/\.0$/, "");
}

/** Where bars are not of the usual length, in a sentence: "3 beats in bars 9 to 12." Empty where all are alike. */
export function otherBarsWords(grid: SongGrid): string {
  const usual = usualMeter(grid);
  const others = meterRuns(grid).filter(({ beatsPerBar }) => beatsPerBar !== usual);
  if (others.length === 0) return "";
  if (others.length > TOLD_RUNS) return `${others.length} stretches of bars are of another length.`;
  const told = others.map(({ fromBar, toBar, beatsPerBar }) => {
    const beats = `${beatsPerBar} ${beatsPerBar === 1 ? "beat" : "beats"}`;
    return fromBar === toBar ? `${beats} in bar ${fromBar}` : `${beats} from bar ${fromBar} to ${toBar}`;
  });
  return `${told.join(", ")}.`;
}
