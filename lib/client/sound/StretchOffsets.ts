import { encodeWav } from "@/lib/synth/encodeWav";
import type { Hertz, Seconds } from "@/lib/units/quantities";

const RATE_HZ: Hertz = 22_050;
/** When the bursts of the test sound begin. */
const BURSTS_SEC: readonly Seconds[] = [0.3, 0.6, 0.9];
const BURST_SEC: Seconds = 0.03;
const BURST_HZ: Hertz = 1_200;
const LENGTH_SEC: Seconds = 1.2;
/** Louder than this is a burst. */
const AUDIBLE = 0.1;
/** A burst that comes further off than this was not that burst. */
const FURTHEST_SEC: Seconds = 0.15;
const FFT_SIZE = 8192;

/** What the media element said of its time, and when. */
export interface TimeWord {
  /** Of the audio context. */
  atSec: Seconds;
  /** Of the record. */
  saidSec: Seconds;
}

/**
 * By how much what is heard is ahead of what the media element says, from when bursts were heard.
 * @param heardSec times of the context at which bursts were heard, in order
 * @param speed of the media element
 * @returns seconds of the record; null where no burst was heard
 */
export function aheadOf(
  words: readonly TimeWord[],
  heardSec: readonly Seconds[],
  speed: number,
): Seconds | null {
  const offs = heardSec.flatMap((sec) => {
    const word = words.findLast(({ atSec }) => atSec <= sec) ?? words[0];
    if (!word) return [];
    const saidSec = word.saidSec + (sec - word.atSec) * speed;
    const nearest = BURSTS_SEC.map((each) => each - saidSec).sort((a, b) => Math.abs(a) - Math.abs(b))[0]!;
    return Math.abs(nearest) < FURTHEST_SEC ? [nearest] : [];
  });
  offs.sort((a, b) => a - b);
  return offs[Math.floor(offs.length / 2)] ?? null;
}

/**
 * How far the record that is heard is ahead of what its media element says, at each speed. Browsers keep the pitch of a
 * slowed record by stretching it, and do not reckon what the stretching holds back or hurries on: at half speed
 * Chromium is heard 29 ms of the record ahead of its own clock, at a quarter 40 ms. So it is measured, once for each
 * speed, in the browser that plays: bursts at known times, played at that speed where nobody hears them.
 */
export class StretchOffsets {
  private readonly known = new Map<number, Seconds>();
  private measuring: number | null = null;

  /** Seconds of the record to be added to what the element says; reckoned from another speed where not measured yet. */
  at(speed: number): Seconds {
    if (speed === 1) return 0;
    const known = this.known.get(speed);
    if (known !== undefined) return known;
    const [other] = [...this.known].sort(([a], [b]) => Math.abs(a - speed) - Math.abs(b - speed));
    // It grows as the record is slowed.
    return other ? (other[1] * (1 - speed)) / (1 - other[0]) : 0;
  }

  /** Measures a speed that is not known yet; does nothing while one is measured. */
  async measure(context: AudioContext, speed: number): Promise<void> {
    if (speed === 1 || this.known.has(speed) || this.measuring !== null) return;
    this.measuring = speed;
    const ahead = await measureAhead(context, speed).catch(() => null);
    // Where nothing was heard of it, it is not asked again and again.
    this.known.set(speed, ahead ?? this.at(speed));
    this.measuring = null;
  }
}

async function measureAhead(context: AudioContext, speed: number): Promise<Seconds | null> {
  const url = URL.createObjectURL(new Blob([encodeWav([bursts()], RATE_HZ)], { type: "audio/wav" }));
  const media = new Audio(url);
  media.preservesPitch = true;
  media.playbackRate = speed;
  const source = context.createMediaElementSource(media);
  const analyser = new AnalyserNode(context, { fftSize: FFT_SIZE });
  // It leads to the ears, so that it is pulled in every browser, and lets nothing through.
  const closed = new GainNode(context, { gain: 0 });
  source.connect(analyser).connect(closed).connect(context.destination);
  const words: TimeWord[] = [];
  const heardSec: Seconds[] = [];
  try {
    await media.play();
    const samples = new Float32Array(FFT_SIZE);
    const lastSec = context.currentTime + LENGTH_SEC / speed + 1;
    while (!media.ended && context.currentTime < lastSec) {
      await new Promise((resolve) => setTimeout(resolve, 25));
      const atSec = context.currentTime;
      words.push({ atSec, saidSec: media.currentTime });
      analyser.getFloatTimeDomainData(samples);
      const first = samples.findIndex((sample) => Math.abs(sample) > AUDIBLE);
      if (first <= 0) continue;
      const beganSec = atSec - (FFT_SIZE - first) / context.sampleRate;
      if (beganSec > (heardSec.at(-1) ?? 0) + 0.5 * (BURSTS_SEC[1]! - BURSTS_SEC[0]!))
        heardSec.push(beganSec);
    }
    return aheadOf(words, heardSec, speed);
  } finally {
    media.removeAttribute("src");
    source.disconnect();
    analyser.disconnect();
    closed.disconnect();
    URL.revokeObjectURL(url);
  }
}

function bursts(): Float32Array {
  const samples = new Float32Array(LENGTH_SEC * RATE_HZ);
  for (const startSec of BURSTS_SEC) {
    const first = Math.round(startSec * RATE_HZ);
    for (let index = 0; index < BURST_SEC * RATE_HZ; index += 1)
      samples[first + index] = 0.8 * Math.sin((2 * Math.PI * BURST_HZ * index) / RATE_HZ);
  }
  return samples;
}
