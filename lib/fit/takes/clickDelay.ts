import { RealFft } from "@/lib/dsp/RealFft";
import { MEDIAN_TO_DEVIATION, median } from "@/lib/dsp/running";
import type { Hertz, Seconds } from "@/lib/units/quantities";

/** How long clicks take from the moment they were to sound until a microphone has them, or why that is not told. */
export type ClickDelay =
  | {
      isTold: true;
      /** Below 0 where they came before the times given. */
      delaySec: Seconds;
      /** Standard deviation over the clicks, told robustly. */
      spreadSec: Seconds;
      heardCount: number;
      clickCount: number;
    }
  | {
      isTold: false;
      /** Fewer than half of them, or than three, stand out of what else is heard; or they came at times that do not agree. */
      why: "tooQuiet" | "scattered";
      heardCount: number;
      clickCount: number;
    };

/** What the microphone heard, and what it should have. */
export interface HeardClicks {
  /** Mono, at any level. */
  samples: Float32Array;
  sampleRateHz: Hertz;
  /** One click as it was sent, at the same rate, from its first sample on. */
  click: Float32Array;
  /** When each was to sound, in seconds of the samples, rising. */
  timesSec: readonly Seconds[];
}

const EARLIEST_SEC: Seconds = -0.05;
/** The slowest wireless headphones take a third of a second (common practice, no source). */
const LATEST_SEC: Seconds = 0.5;
/** Of the way to the next click. */
const MOST_OF_STEP = 0.85;
/** A click stands so far over the middle of what else the filter answers. Set here. */
const STANDS_OUT = 8;
/** Of the highest answer: whatever comes first and is so high is the click, and what is higher later an echo. Set here. */
const FIRST_SHARE = 0.6;
/** From where an answer first stands so high it is this far to its top: the length of a click's stroke. Set here. */
const TOP_WITHIN_SEC: Seconds = 0.003;
const FEWEST = 3;
/** Clicks of one device agree so well. */
const AGREES_SEC: Seconds = 0.006;
/** Share of those heard that must agree. */
const AGREE_SHARE = 0.7;

/**
 * How late clicks are heard. Each is looked for by a matched filter, the correlation of what was heard with the click as
 * it was sent, which of all linear filters stands highest over white noise (G. L. Turin, "An introduction to matched filters",
 * IRE Trans. IT-6 (1960)); of it the envelope, since loudspeakers and microphones turn the phase. The first high answer is taken, not
 * the highest, since a wall may answer louder than the way straight; the median over all passes by a cough and clicks that
 * were not heard.
 * @throws RangeError for no clicks, or an empty one
 */
export function clickDelay({ samples, sampleRateHz, click, timesSec }: HeardClicks): ClickDelay {
  if (timesSec.length === 0 || click.length === 0)
    throw new RangeError("A delay is told of at least one click with at least one sample.");
  const steps = timesSec.slice(1).map((time, i) => time - timesSec[i]!);
  const latestSec = Math.min(LATEST_SEC, ...steps.map((step) => step * MOST_OF_STEP));
  const first = Math.round(EARLIEST_SEC * sampleRateHz);
  const lagCount = Math.max(1, Math.round(latestSec * sampleRateHz) - first);
  const answer = matchedFilter(click, lagCount);
  const heard = timesSec.flatMap((timeSec) => {
    const from = Math.round(timeSec * sampleRateHz) + first;
    const lag = firstHigh(answer(samples, from), Math.ceil(TOP_WITHIN_SEC * sampleRateHz));
    return lag === null ? [] : (from + lag) / sampleRateHz - timeSec;
  });
  const counts = { heardCount: heard.length, clickCount: timesSec.length };
  if (heard.length < Math.min(FEWEST, timesSec.length) || heard.length < timesSec.length / 2)
    return { isTold: false, why: "tooQuiet", ...counts };
  const middle = median(heard);
  const agreeing = heard.filter((sec) => Math.abs(sec - middle) <= AGREES_SEC);
  if (agreeing.length < AGREE_SHARE * heard.length) return { isTold: false, why: "scattered", ...counts };
  const delaySec = median(agreeing);
  const spreadSec = MEDIAN_TO_DEVIATION * median(agreeing.map((sec) => Math.abs(sec - delaySec)));
  return { isTold: true, delaySec, spreadSec, ...counts };
}

/** Correlates samples from a place on with the click, at so many lags; by transforms, since lags are many. */
function matchedFilter(
  click: Float32Array,
  lagCount: number,
): (samples: Float32Array, from: number) => Float64Array {
  const length = lagCount + click.length;
  // Every lag must lie in the half of the spectrum that the transform gives.
  const size = 2 ** Math.ceil(Math.log2(Math.max(32, length, 2 * lagCount)));
  const fft = new RealFft(size);
  const part = new Float32Array(size);
  part.set(click);
  fft.transform(part);
  const [clickRe, clickIm] = [fft.re.slice(), fft.im.slice()];
  return (samples, from) => {
    part.fill(0);
    const [start, end] = [Math.max(0, from), Math.min(samples.length, from + length)];
    if (end > start) part.set(samples.subarray(start, end), start - from);
    fft.transform(part);
    const [re, im] = [fft.re.slice(), fft.im.slice()];
    for (let bin = 0; bin < re.length; bin++) {
      const [a, b, c, d] = [clickRe[bin]!, clickIm[bin]!, re[bin]!, im[bin]!];
      re[bin] = a * c + b * d;
      im[bin] = a * d - b * c;
    }
    const own = wayBack(fft, re, im, lagCount);
    // A quarter of a turn later: both together are the envelope (D. Gabor, "Theory of communication", J. IEE 93 (1946)).
    const turned = wayBack(
      fft,
      im,
      re.map((value) => -value),
      lagCount,
    );
    return own.map((value, lag) => Math.hypot(value, turned[lag]!));
  };
}

/**
 * The sequence that has a spectrum, as far as it is wanted, but for a factor: the forward transform of the Hartley
 * spectrum, which is its own inverse (R. N. Bracewell, "Discrete Hartley transform", JOSA 73 (1983)).
 */
function wayBack(fft: RealFft, re: Float32Array, im: Float32Array, count: number): Float64Array {
  const half = fft.size / 2;
  const part = new Float32Array(fft.size);
  for (let bin = 0; bin <= half; bin++) {
    part[bin] = re[bin]! - im[bin]!;
    if (bin > 0 && bin < half) part[fft.size - bin] = re[bin]! + im[bin]!;
  }
  fft.transform(part);
  const [even, odd] = [fft.re, fft.im];
  const sequence = new Float64Array(count);
  for (let lag = 0; lag < count; lag++) sequence[lag] = even[lag]! - odd[lag]!;
  return sequence;
}

/**
 * The top of the first answer that is about as high as the highest; null where that does not stand out.
 * @param topWithin lags
 */
function firstHigh(answers: Float64Array, topWithin: number): number | null {
  const highest = answers.reduce((most, value) => Math.max(most, value), 0);
  if (highest === 0 || highest < STANDS_OUT * median(answers)) return null;
  const from = answers.findIndex((value) => value >= FIRST_SHARE * highest);
  let top = from;
  for (let lag = from; lag < Math.min(answers.length, from + topWithin); lag++)
    if (answers[lag]! > answers[top]!) top = lag;
  return top;
}
