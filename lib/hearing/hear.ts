import { ResampledSignal } from "@/lib/dsp/resample";
import { median } from "@/lib/dsp/running";
import { formatHarte, NO_CHORD } from "@/lib/theory/harte";
import { spellPitchClass } from "@/lib/theory/spelling";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { hearBars } from "./bars";
import { chooseBeats, intervals } from "./beatLevel";
import { type ChordRun, hearChordRuns, plainLogPrior } from "./changes";
import { chordLikelihoods } from "./chordTemplates";
import { CHORD_STATES } from "./chordVocabulary";
import { type StretchChroma, stretchChroma } from "./chroma";
import { hearOnsets, hearPitchSpectra } from "./evidence";
import type { HeardChord, HeardGrid, HeardHome, Hearing, HearingProgress } from "./Hearing";
import { HearingWatch } from "./HearingWatch";
import { chordPriorInKeys, hearKeys, KEY_STATES, type KeyWalk } from "./homes";
import { bassDegree } from "./inversion";
import { tonicName } from "./keyNames";
import { beatEvidence } from "./novelty";
import { HEARING_RATE_HZ, LEVEL } from "./parameters";
import { cutAtBeats, type Stretches } from "./stretches";
import { hearTuning } from "./tuning";

export { HearingStopped } from "./HearingWatch";

/** Told apart in stored results; raised whenever the method or its numbers change what is heard. */
export const HEARING_VERSION = "signal-1";

export interface HearOptions {
  /** Called as each step goes on, steps in the order of HEARING_STEPS. */
  onProgress?: HearingProgress;
  /** Asked often; hearing ends with {@link HearingStopped} once it returns true. */
  shouldStop?: () => boolean;
}

/**
 * Hears a record: tuning, beats and bars, changes, home. The same samples always give the same answer.
 * @param samples mono, any level, all finite; at least one
 * @param sampleRateHz rate of `samples`, at least 4000
 * @throws RangeError when the samples or the rate cannot be heard
 * @throws HearingStopped when `shouldStop` says so
 */
export function hear(samples: Float32Array, sampleRateHz: Hertz, options: HearOptions = {}): Hearing {
  if (!(sampleRateHz >= LEVEL.lowestRateHz && Number.isFinite(sampleRateHz))) {
    throw new RangeError(
      `A record needs a sample rate of at least ${LEVEL.lowestRateHz} Hz, not ${sampleRateHz}.`,
    );
  }
  if (samples.length === 0) throw new RangeError("The record holds no samples; there is nothing to hear.");
  const watch = new HearingWatch(options.onProgress, options.shouldStop);
  const durationSec = samples.length / sampleRateHz;
  const signal = new ResampledSignal(samples, sampleRateHz, HEARING_RATE_HZ, levelGain(samples));

  watch.begin("tuning");
  const tuning = hearTuning(signal, watch.span(0, 1));
  watch.at(1);

  watch.begin("beats");
  const onsets = hearOnsets(signal, watch.span(0, 0.35));
  const spectra = hearPitchSpectra(signal, tuning.cents, watch.span(0.35, 0.85));
  const evidence = beatEvidence(onsets, spectra);
  const chain = chooseBeats(evidence, durationSec, watch.span(0.85, 1, 1));
  watch.at(1);

  watch.begin("changes");
  const beats = chain.timesSec;
  const unbarred = cutAtBeats(beats, null, durationSec);
  const chroma = stretchChroma(spectra, unbarred.edgesSec, watch.span(0, 0.9, 8));
  const likelihoods = chordLikelihoods(chroma);
  const plain = plainLogPrior();
  const plainRuns = hearChordRuns(
    likelihoods,
    unbarred.starts,
    chroma.map(() => plain),
  );
  const inKeys = chordPriorInKeys(hearKeys(chroma, plainRuns, unbarred.beats));
  const unbarredRuns = hearChordRuns(likelihoods, unbarred.starts, inKeys);
  const bars = hearBars(beats, evidence, changesAtBeats(beats, unbarredRuns, unbarred));
  const stretches = cutAtBeats(beats, bars, durationSec);
  const runs = hearChordRuns(likelihoods, stretches.starts, inKeys);
  watch.at(1);

  watch.begin("home");
  const homes = homesOf(hearKeys(chroma, runs, stretches.beats), stretches);
  watch.at(1);

  return {
    version: HEARING_VERSION,
    durationSec,
    tuningCents: tuning.cents,
    tuningConfidence: tuning.confidence,
    grid: gridOf(chain, bars),
    homes,
    chords: runs.map((run) => chordOf(run, chroma, homes)),
  };
}

/** 1 for each beat at which a run of one chord begins, else 0. */
function changesAtBeats(beatsSec: Seconds[], runs: ChordRun[], stretches: Stretches): number[] {
  const cuts = new Set(runs.slice(1).map((run) => stretches.edgesSec[run.from]!));
  return beatsSec.map((time) => (cuts.has(time) ? 1 : 0));
}

/** The factor that brings the record to a common level, so that its loudness changes nothing; 1 for silence. */
function levelGain(samples: Float32Array): number {
  let power = 0;
  for (let i = 0; i < samples.length; i++) power += samples[i]! * samples[i]!;
  const level = Math.sqrt(power / samples.length);
  if (!Number.isFinite(level)) {
    throw new RangeError("The record holds samples that are no numbers; decode it again.");
  }
  return level > LEVEL.silence ? LEVEL.rms / level : 1;
}

function gridOf(chain: ReturnType<typeof chooseBeats>, bars: ReturnType<typeof hearBars>): HeardGrid {
  const period = median(intervals(chain.timesSec));
  return {
    beats: chain.timesSec.map((timeSec, i) => ({ timeSec, inBar: bars.inBar[i]! })),
    tempoBpm: period > 0 ? 60 / period : 0,
    beatsPerBar: bars.beatsPerBar,
    confidence: chain.confidence * bars.confidence,
  };
}

function homesOf(walk: KeyWalk, stretches: Stretches): HeardHome[] {
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
    homes.push({ startSec, endSec, tonic: tonicName(tonic, mode), mode, confidence, state, from: i });
  });
  return homes.map(({ state: _, from, ...home }, h) => {
    const to = homes[h + 1]?.from ?? walk.path.length;
    return { ...home, confidence: home.confidence / (to - from) };
  });
}

function chordOf(run: ChordRun, chroma: StretchChroma[], homes: HeardHome[]): HeardChord {
  const { startSec } = chroma[run.from]!;
  const { endSec } = chroma[run.to - 1]!;
  const { confidence } = run;
  const chord = CHORD_STATES[run.state]!.chord;
  if (!chord) return { startSec, endSec, label: NO_CHORD, confidence };
  const home = homes.find((other) => other.endSec > startSec) ?? homes.at(-1)!;
  const rootName = spellPitchClass(chord.root, home);
  const label = formatHarte({
    rootName,
    quality: chord.type.quality,
    extensions: [],
    bass: bassDegree(run, chroma),
  });
  return { startSec, endSec, label, confidence };
}
