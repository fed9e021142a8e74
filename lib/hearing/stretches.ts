import type { Seconds } from "@/lib/units/quantities";
import type { HeardBars } from "./bars";
import type { StretchStart } from "./changes";
import { CHANGES } from "./parameters";

/** The record cut at every beat and half beat: the pieces that can each hold one chord. */
export interface Stretches {
  /** n + 1 edges of n stretches, from 0 to the end of the record. */
  edgesSec: Seconds[];
  starts: StretchStart[];
  /** Length of each stretch in beats. */
  beats: number[];
}

/**
 * @param beatsSec beat times in order, inside the record
 * @param bars place in the bar of each beat, and the metre; null where bars are not known yet
 */
export function cutAtBeats(beatsSec: Seconds[], bars: HeardBars | null, durationSec: Seconds): Stretches {
  const edgesSec: Seconds[] = [0];
  const starts: StretchStart[] = ["downbeat"];
  const cut = (timeSec: Seconds, start: StretchStart): void => {
    if (timeSec - edgesSec.at(-1)! < CHANGES.shortestSec) {
      if (edgesSec.length === 1) starts[0] = start;
      return;
    }
    if (durationSec - timeSec < CHANGES.shortestSec) return;
    edgesSec.push(timeSec);
    starts.push(start);
  };
  beatsSec.forEach((time, i) => {
    cut(time, bars ? startOf(bars.inBar[i]!, bars.beatsPerBar) : "midBar");
    const next = beatsSec[i + 1];
    if (next !== undefined) cut((time + next) / 2, "halfBeat");
  });
  edgesSec.push(durationSec);
  const meanBeat =
    beatsSec.length > 1 ? (beatsSec.at(-1)! - beatsSec[0]!) / (beatsSec.length - 1) : durationSec;
  const beats = starts.map((_, i) => (edgesSec[i + 1]! - edgesSec[i]!) / Math.max(1e-9, meanBeat));
  return { edgesSec, starts, beats };
}

/** Bars of four and six have a second strong beat in the middle. */
function startOf(inBar: number, beatsPerBar: number): StretchStart {
  if (inBar === 1) return "downbeat";
  return beatsPerBar >= 4 && inBar === beatsPerBar / 2 + 1 ? "midBar" : "beat";
}
