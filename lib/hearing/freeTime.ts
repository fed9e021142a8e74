import type { Seconds } from "@/lib/units/quantities";
import { FREE_TIME } from "./beatParameters";
import type { HeardStretch } from "./Hearing";
import { sample } from "./levelFeatures";
import type { BeatEvidence } from "./novelty";
import { ONSETS } from "./parameters";

/**
 * Where no steady beat is heard: free time, or silence. A hidden Markov model of two states walks along the beats
 * (Viterbi), in time and free; each beat speaks for one of them by how surely it is heard as a beat, by a learned ear
 * or by its onset.
 * @param beats of the record, in order
 */
export function freeStretches(
  beats: readonly Seconds[],
  evidence: BeatEvidence,
  durationSec: Seconds,
): HeardStretch[] {
  const { learned, onset, frameRateHz } = evidence;
  const heardAt = beats.map((time) => time + ONSETS.delaySec);
  const heard = sample(learned ? learned.beat : onset, heardAt, frameRateHz, 1);
  const inTime = walk(heard.map((value) => FREE_TIME.weight * (Math.min(1, value) - FREE_TIME.even)));
  const found: HeardStretch[] = [];
  beats.forEach((time, i) => {
    if (inTime[i]) return;
    const endSec = beats[i + 1] ?? durationSec;
    const last = found.at(-1);
    if (last && i > 0 && !inTime[i - 1]) last.endSec = endSec;
    else found.push({ startSec: i === 0 ? 0 : time, endSec });
  });
  return found.filter(({ startSec, endSec }) => endSec - startSec >= FREE_TIME.shortestSec);
}

/** Which beats are in time. @param nats for being so, of each beat */
function walk(nats: readonly number[]): boolean[] {
  let steady = 0;
  let free = 0;
  const steadyFromFree: boolean[] = [];
  const freeFromSteady: boolean[] = [];
  for (const nat of nats) {
    steadyFromFree.push(free - FREE_TIME.changeCost > steady);
    freeFromSteady.push(steady - FREE_TIME.changeCost > free);
    const stays = Math.max(steady, free - FREE_TIME.changeCost) + nat;
    free = Math.max(free, steady - FREE_TIME.changeCost);
    steady = stays;
  }
  const inTime: boolean[] = [];
  let here = steady >= free;
  for (let i = nats.length - 1; i >= 0; i--) {
    inTime.push(here);
    if (here ? steadyFromFree[i] : freeFromSteady[i]) here = !here;
  }
  return inTime.reverse();
}
