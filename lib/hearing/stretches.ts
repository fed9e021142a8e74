import type { Seconds } from "@/lib/units/quantities";
import type { HeardBars } from "./bars";
import { CHANGES } from "./harmonyParameters";

/** Where in the bar a stretch begins; a push stands just before a downbeat or the middle of a bar. */
export type StretchStart = "offBeat" | "push" | "beat" | "midBar" | "downbeat";

/** The record cut at every beat and once between beats: the pieces that can each hold one chord. */
export interface Stretches {
  /** n + 1 edges of n stretches, from 0 to the end of the record. */
  edgesSec: Seconds[];
  starts: StretchStart[];
  /** Length of each stretch in beats. */
  beats: number[];
  /**
   * Number of the beat that each edge belongs to, n + 1 in all. An edge between two beats belongs to the later: a chord
   * that begins there comes in ahead of its beat.
   */
  beatOf: number[];
}

/**
 * @param beatsSec beat times in order, inside the record
 * @param bars place in the bar of each beat, and the metre; null where bars are not known yet
 * @param division parts that a beat falls into: a beat of two is cut in the middle, a beat of three before its last
 *   part, where swung and compound beats have their off-beat
 */
export function cutAtBeats(
  beatsSec: Seconds[],
  bars: Pick<HeardBars, "inBar" | "beatsPerBar"> | null,
  durationSec: Seconds,
  division: 2 | 3 = 2,
): Stretches {
  const edgesSec: Seconds[] = [0];
  const starts: StretchStart[] = ["downbeat"];
  const beatOf: number[] = [-1];
  const cut = (timeSec: Seconds, start: StretchStart, beat: number): void => {
    if (timeSec - edgesSec.at(-1)! < CHANGES.shortestSec) {
      if (edgesSec.length === 1) {
        starts[0] = start;
        beatOf[0] = beat;
      }
      return;
    }
    if (durationSec - timeSec < CHANGES.shortestSec) return;
    edgesSec.push(timeSec);
    starts.push(start);
    beatOf.push(beat);
  };
  const startAt = (beat: number): StretchStart =>
    bars ? startOf(bars.inBar[beat]!, bars.beatsPerBar) : "midBar";
  const offBeat = (division - 1) / division;
  beatsSec.forEach((time, i) => {
    cut(time, startAt(i), i);
    const next = beatsSec[i + 1];
    if (next === undefined) return;
    cut(time + offBeat * (next - time), startAt(i + 1) === "beat" ? "offBeat" : "push", i + 1);
  });
  edgesSec.push(durationSec);
  const meanBeat =
    beatsSec.length > 1 ? (beatsSec.at(-1)! - beatsSec[0]!) / (beatsSec.length - 1) : durationSec;
  const beats = starts.map((_, i) => (edgesSec[i + 1]! - edgesSec[i]!) / Math.max(1e-9, meanBeat));
  beatOf.push(beatOf.at(-1)! + Math.max(1, Math.round(beats.at(-1)!)));
  return { edgesSec, starts, beats, beatOf };
}

/** Bars of four and six have a second strong beat in the middle. */
function startOf(inBar: number, beatsPerBar: number): StretchStart {
  if (inBar === 1) return "downbeat";
  return beatsPerBar >= 4 && inBar === beatsPerBar / 2 + 1 ? "midBar" : "beat";
}
