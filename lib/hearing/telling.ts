import { median } from "@/lib/dsp/running";
import { formatHarte, NO_CHORD } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { spellPitchClass } from "@/lib/theory/spelling";
import type { HeardBars } from "./bars";
import type { BeatChain } from "./beatLevel";
import { meanOver } from "./changes";
import { CHORD_STATES } from "./chordVocabulary";
import type { HeardChord, HeardGrid, HeardHome, KeyGuess } from "./Hearing";
import type { HeardHarmony } from "./harmony";
import type { KeyWalk } from "./homes";
import { tonicName } from "./keyNames";
import { KEY_STATES } from "./keyStates";
import { intervals } from "./levelFeatures";
import type { Stretches } from "./stretches";

export function gridOf(chain: BeatChain, bars: HeardBars): HeardGrid {
  const period = median(intervals(chain.timesSec));
  return {
    beats: chain.timesSec.map((timeSec, i) => ({ timeSec, inBar: bars.inBar[i]! })),
    tempoBpm: period > 0 ? 60 / period : 0,
    beatsPerBar: bars.beatsPerBar,
    division: chain.division,
    freeStretches: chain.freeStretches,
    beatsConfidence: chain.confidence,
    barsConfidence: bars.confidence,
  };
}

export function homesOf(walk: KeyWalk, stretches: Stretches): HeardHome[] {
  const homes: HeardHome[] = [];
  let from = 0;
  walk.path.forEach((state, i) => {
    const to = i + 1;
    if (walk.path[to] === state) return;
    const mean = meanOver(walk.certain, { from, to });
    const guess = (key: number): KeyGuess => {
      const { tonic, mode } = KEY_STATES[key]!;
      return { tonic: tonicName(tonic, mode), mode, confidence: mean[key]! };
    };
    homes.push({
      startSec: stretches.edgesSec[from]!,
      endSec: stretches.edgesSec[to]!,
      ...guess(state),
      nextBest: likeliest(mean, 3)
        .filter((key) => key !== state)
        .slice(0, 2)
        .map(guess),
    });
    from = to;
  });
  return homes;
}

/** The changes as they are told: labels spelled by the home that they lie in. */
export function chordsOf(
  { runs, certain, stretches }: Pick<HeardHarmony, "runs" | "certain" | "stretches">,
  homes: HeardHome[],
): HeardChord[] {
  return runs.map((run) => {
    const startSec = stretches.edgesSec[run.from]!;
    const endSec = stretches.edgesSec[run.to]!;
    const home = homes.find((other) => other.endSec > startSec) ?? homes.at(-1)!;
    const mean = meanOver(certain, run);
    const nextBest = likeliest(mean, 3)
      .filter((state) => state !== run.state)
      .slice(0, 2)
      .map((state) => ({ label: labelOf(state, 0, home), confidence: mean[state]! }));
    return {
      startSec,
      endSec,
      label: labelOf(run.state, run.bassPlace, home),
      confidence: mean[run.state]!,
      nextBest,
    };
  });
}

function labelOf(state: number, bassPlace: number, home: Key): string {
  const chord = CHORD_STATES[state]!.chord;
  if (!chord) return NO_CHORD;
  const { quality, degrees } = chord.type;
  const rootName = spellPitchClass(chord.root, home);
  return formatHarte({ rootName, quality, extensions: [], bass: degrees[bassPlace]! });
}

/** The likeliest places, likelier first. */
function likeliest(chances: Float64Array, count: number): number[] {
  return Array.from(chances.keys())
    .sort((a, b) => chances[b]! - chances[a]! || a - b)
    .slice(0, count);
}
