import { median } from "@/lib/dsp/running";
import { formatHarte, NO_CHORD } from "@/lib/theory/harte";
import { spellPitchClass } from "@/lib/theory/spelling";
import type { HeardBars } from "./bars";
import { type BeatChain, intervals } from "./beatLevel";
import { CHORD_STATES } from "./chordVocabulary";
import type { StretchChroma } from "./chroma";
import type { HeardChord, HeardGrid, HeardHome } from "./Hearing";
import type { HeardHarmony } from "./harmony";
import { KEY_STATES, type KeyWalk } from "./homes";
import { bassDegree, learnedBassDegree } from "./inversion";
import { tonicName } from "./keyNames";
import type { Stretches } from "./stretches";

export function gridOf(chain: BeatChain, bars: HeardBars): HeardGrid {
  const period = median(intervals(chain.timesSec));
  return {
    beats: chain.timesSec.map((timeSec, i) => ({ timeSec, inBar: bars.inBar[i]! })),
    tempoBpm: period > 0 ? 60 / period : 0,
    beatsPerBar: bars.beatsPerBar,
    division: 2,
    freeStretches: [],
    beatsConfidence: chain.confidence,
    barsConfidence: bars.confidence,
  };
}

export function homesOf(walk: KeyWalk, stretches: Stretches): HeardHome[] {
  const homes: (HeardHome & { state: number; from: number })[] = [];
  walk.path.forEach((state, i) => {
    const endSec = stretches.edgesSec[i + 1]!;
    const last = homes.at(-1);
    if (last && last.state === state) {
      last.endSec = endSec;
      last.confidence += walk.certain[i]![state]!;
      return;
    }
    const { tonic, mode } = KEY_STATES[state]!;
    const startSec = stretches.edgesSec[i]!;
    const confidence = walk.certain[i]![state]!;
    homes.push({
      startSec,
      endSec,
      tonic: tonicName(tonic, mode),
      mode,
      confidence,
      nextBest: [],
      state,
      from: i,
    });
  });
  return homes.map(({ state: _, from, ...home }, h) => {
    const to = homes[h + 1]?.from ?? walk.path.length;
    return { ...home, confidence: home.confidence / (to - from) };
  });
}

/** The changes as they are told: labels spelled by the home that they lie in, inversions only where the bass stays. */
export function chordsOf(
  { runs, posteriors }: HeardHarmony,
  chroma: StretchChroma[],
  homes: HeardHome[],
): HeardChord[] {
  return runs.map((run) => {
    const { startSec } = chroma[run.from]!;
    const { endSec } = chroma[run.to - 1]!;
    const { confidence } = run;
    const chord = CHORD_STATES[run.state]!.chord;
    if (!chord) return { startSec, endSec, label: NO_CHORD, confidence, nextBest: [] };
    const home = homes.find((other) => other.endSec > startSec) ?? homes.at(-1)!;
    const rootName = spellPitchClass(chord.root, home);
    const bass = posteriors ? learnedBassDegree(run, posteriors) : bassDegree(run, chroma);
    const label = formatHarte({ rootName, quality: chord.type.quality, extensions: [], bass });
    return { startSec, endSec, label, confidence, nextBest: [] };
  });
}
