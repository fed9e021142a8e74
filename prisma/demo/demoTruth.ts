import type { HeardBeat } from "@/lib/hearing/Hearing";
import type { PartEvent } from "@/lib/notation/PartEvent";
import type { Key } from "@/lib/theory/key";
import { numberToChord } from "@/lib/theory/numberChart";
import type { Beats, Cents, Seconds } from "@/lib/units/quantities";
import { CHANGES, PIECE } from "./piece";
import { STEEL_PART } from "./steelPart";

/** What the demo record holds, known because it was written. */
export interface DemoTruth {
  tuningCents: Cents;
  tempoBpm: number;
  key: Key;
  beats: HeardBeat[];
  /** Harte labels; a chord that goes on over a bar line is one change. */
  changes: { startSec: Seconds; endSec: Seconds; label: string }[];
  part: PartEvent[];
}

/** Time of a beat counted from the first downbeat, which is 0. */
export function pieceBeatToSeconds(beat: Beats): Seconds {
  return PIECE.startSec + (beat * 60) / PIECE.tempoBpm;
}

/** Everything that is known of the demo record. */
export function demoTruth(): DemoTruth {
  const { beatsPerBar } = PIECE;
  const beats = Array.from({ length: CHANGES.length * beatsPerBar }, (_, beat) => ({
    timeSec: pieceBeatToSeconds(beat),
    inBar: (beat % beatsPerBar) + 1,
  }));
  const part = STEEL_PART.map(
    ([bar, beat, lengthBeats, strings, fret, changes, articulation], index): PartEvent => {
      const startBeat = (bar - 1) * beatsPerBar + beat - 1;
      return {
        id: `demo-${index + 1}`,
        startSec: pieceBeatToSeconds(startBeat),
        endSec: pieceBeatToSeconds(startBeat + lengthBeats),
        strings: [...strings],
        fret,
        changes: [...changes],
        articulation,
      };
    },
  );
  const { tuningCents, tempoBpm, key } = PIECE;
  return { tuningCents, tempoBpm, key, beats, changes: readChanges(), part };
}

function readChanges(): DemoTruth["changes"] {
  const changes: DemoTruth["changes"] = [];
  let beat = 0;
  for (const { number, beats } of CHANGES.flat()) {
    const label = numberToChord(number, PIECE.key);
    const before = changes.at(-1);
    const endSec = pieceBeatToSeconds(beat + beats);
    if (before?.label === label) before.endSec = endSec;
    else changes.push({ startSec: pieceBeatToSeconds(beat), endSec, label });
    beat += beats;
  }
  return changes;
}
