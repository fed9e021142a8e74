import { type ClickDelay, clickDelay } from "@/lib/fit/takes/clickDelay";
import type { Seconds } from "@/lib/units/quantities";
import type { Player } from "../player/Player";
import { TakeCapture } from "./TakeCapture";

const CLICKS = 6;
/** From one click to the next: longer than any device takes. */
const STEP_SEC: Seconds = 0.5;
/** Before the first, so that the device has come to rest. */
const LEAD_SEC: Seconds = 0.4;
const CLICK_HZ = 2_400;
const CLICK_SEC: Seconds = 0.006;
/** Loud enough to be heard over a room, and no louder than the record. */
const CLICK_GAIN = 0.6;

/** One click as it is sent: a short tone that falls off, which small loudspeakers give too. */
export function clickSamples(sampleRateHz: number): Float32Array<ArrayBuffer> {
  return Float32Array.from({ length: Math.round(CLICK_SEC * sampleRateHz) }, (_, index) => {
    const sec = index / sampleRateHz;
    return Math.sin(2 * Math.PI * CLICK_HZ * sec) * Math.exp(-sec / (CLICK_SEC / 5));
  });
}

/**
 * Measures how late a device is: clicks go out by the way the record goes, through level and ceiling, and are looked for in
 * what comes in. To be called from a press, with loudspeakers on or the headphones held to the microphone.
 * @param onProgress told the fraction of the clicks that went out
 * @throws DOMException as getUserMedia does; the signal's reason where that ended it
 */
export async function measureDelay(
  player: Player,
  deviceId: string | null,
  onProgress: (fraction: number) => void,
  signal: AbortSignal,
): Promise<ClickDelay> {
  const chain = player.openOutput();
  const { context } = chain;
  player.pause();
  void chain.resume();
  const gone = new AbortController();
  const capture = await TakeCapture.open(deviceId, chain.beside, signal, {
    came: () => {},
    gone: () => gone.abort(new DOMException("", "NotFoundError")),
  });
  const level = new GainNode(context, { gain: CLICK_GAIN * player.now().level });
  level.connect(chain.beside);
  try {
    const click = clickSamples(context.sampleRate);
    const buffer = context.createBuffer(1, click.length, context.sampleRate);
    buffer.copyToChannel(click, 0);
    const firstSec = context.currentTime + LEAD_SEC;
    const atSec = Array.from({ length: CLICKS }, (_, index) => firstSec + index * STEP_SEC);
    for (const when of atSec) {
      const source = new AudioBufferSourceNode(context, { buffer });
      source.connect(level);
      source.start(when);
    }
    const endFrame = Math.ceil((firstSec + CLICKS * STEP_SEC) * context.sampleRate);
    await new Promise<void>((resolve, reject) => {
      const timer = setInterval(() => {
        onProgress(Math.min(1, Math.max(0, (context.currentTime - firstSec) / (CLICKS * STEP_SEC))));
        if (capture.sound.endFrame < endFrame) return;
        clearInterval(timer);
        resolve();
      }, 50);
      const end = (why: AbortSignal) => () => {
        clearInterval(timer);
        reject(why.reason);
      };
      signal.addEventListener("abort", end(signal), { once: true });
      gone.signal.addEventListener("abort", end(gone.signal), { once: true });
    });
    const startFrame = capture.sound.startFrame ?? 0;
    const [samples] = capture.sound.cut(startFrame, endFrame);
    // What goes out at a time of the context is in the frame of that time.
    const timesSec = atSec.map((when) => when - startFrame / context.sampleRate);
    return clickDelay({ samples: samples!, sampleRateHz: context.sampleRate, click, timesSec });
  } finally {
    capture.close();
    level.disconnect();
  }
}

/** What came of it, in words. */
export function delayWords(delay: ClickDelay): string {
  if (delay.isTold)
    return `Measured: ${Math.round(delay.delaySec * 1000)} ms, by ${delay.heardCount} of ${delay.clickCount} clicks. Takes are moved by that from now on.`;
  return delay.why === "tooQuiet"
    ? `Only ${delay.heardCount} of ${delay.clickCount} clicks were heard, so nothing was changed. Turn the loudspeaker up, or hold the headphones to the microphone, and measure again.`
    : "The clicks came at times that do not agree, so nothing was changed. Make it quiet around you and measure again.";
}
