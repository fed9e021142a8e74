import type { PlaybackCommand } from "@/lib/client/playback/playbackMessages";
import { peakOf, RecordSamples, type Stereo, to16Bit } from "@/lib/client/playback/RecordSamples";
import { RecordVoice } from "@/lib/client/playback/RecordVoice";
import { Stretch } from "@/lib/client/playback/Stretch";
import { openStretchWasm } from "@/lib/client/playback/stretchWasm";

export const RATE_HZ = 48_000;
/** What a browser asks for at a time (Web Audio API, "render quantum size"). */
export const PORTION = 128;

/** Sound as a record in memory, in chunks that are no round number of portions. */
export function recordOf(channels: readonly Float32Array[], rateHz = RATE_HZ): RecordSamples {
  const peak = peakOf(channels);
  const record = new RecordSamples(rateHz, peak);
  const chunkFrames = 50_001;
  for (let at = 0; at < channels[0]!.length; at += chunkFrames)
    record.add(channels.map((channel) => to16Bit(channel.subarray(at, at + chunkFrames), peak)));
  return record;
}

/** A record's player, as the audio thread has it. */
export async function voiceOf(channels: readonly Float32Array[], rateHz = RATE_HZ): Promise<RecordVoice> {
  const stretch = async () => new Stretch(await openStretchWasm(), rateHz);
  return new RecordVoice(recordOf(channels, rateHz), [await stretch(), await stretch(), await stretch()]);
}

/** What it gives out from now on. */
export function listen(
  voice: RecordVoice,
  frames: number,
  portion = PORTION,
): { left: Float32Array; right: Float32Array; clicks: Float32Array } {
  const out: Stereo = [new Float32Array(portion), new Float32Array(portion)];
  const clickOut = new Float32Array(portion);
  const [left, right, clicks] = [
    new Float32Array(frames),
    new Float32Array(frames),
    new Float32Array(frames),
  ];
  for (let at = 0; at < frames; at += portion) {
    const count = Math.min(portion, frames - at);
    voice.render(out, clickOut, count);
    left.set(out[0].subarray(0, count), at);
    right.set(out[1].subarray(0, count), at);
    clicks.set(clickOut.subarray(0, count), at);
  }
  return { left, right, clicks };
}

export function tell(voice: RecordVoice, ...commands: PlaybackCommand[]): void {
  for (const command of commands) voice.obey(command);
}

export function play(sec: number, isCountedIn = false): PlaybackCommand {
  return { kind: "play", sec, isCountedIn };
}

export function pace(speed: number, shiftCents = 0): PlaybackCommand {
  return { kind: "pace", pace: { speed, shiftCents } };
}

/** A sine, silent outside the stretches where it sounds. */
export function tone(
  frequencyHz: number,
  durationSec: number,
  sounding: readonly (readonly [fromSec: number, toSec: number])[] = [[0, durationSec]],
): Float32Array {
  return Float32Array.from({ length: Math.round(durationSec * RATE_HZ) }, (_, index) => {
    const sec = index / RATE_HZ;
    return sounding.some(([from, to]) => sec >= from && sec < to)
      ? 0.5 * Math.sin(2 * Math.PI * frequencyHz * sec)
      : 0;
  });
}

/** Greatest difference of two samples that follow one another. */
export function greatestStep(samples: Float32Array, from = 1, to = samples.length): number {
  let greatest = 0;
  for (let index = Math.max(1, from); index < to; index += 1)
    greatest = Math.max(greatest, Math.abs(samples[index]! - samples[index - 1]!));
  return greatest;
}
