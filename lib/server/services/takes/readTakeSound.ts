import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { encodePeaks } from "@/lib/contracts/peaks";
import { MAX_TAKE_RATE_HZ, MAX_TAKE_SEC } from "@/lib/contracts/takes";
import { AppError } from "../../AppError";
import { MediaError } from "../../media/MediaError";
import type { PcmLayout } from "../../media/pcm";
import { wavSamples } from "../../media/wav";

/** What the bytes of a take say of themselves. */
export interface TakeSound {
  durationSec: number;
  sampleRateHz: number;
  channelCount: 1 | 2;
  /** Layout in lib/contracts/peaks.ts. */
  peaks: Uint8Array<ArrayBuffer>;
}

/** The head that our pages write takes 44 bytes. */
const HEAD_BYTES = 4_096;
const FRAMES_AT_ONCE = 65_536;

/**
 * Reads a take as pages send it: a WAV of one or two channels of 16 bits. Read piece by piece, so that other requests
 * are answered in between.
 * @throws {AppError} take-damaged, take-too-long
 */
export async function readTakeSound(path: string, byteCount: number): Promise<TakeSound> {
  const plain = await headOf(path, byteCount).catch((fault: unknown) => {
    if (fault instanceof MediaError) throw new AppError("take-damaged", {}, { cause: fault });
    throw fault;
  });
  if (!plain || plain.frames === 0 || !isOurs(plain.layout)) throw new AppError("take-damaged");
  const { layout, frames, dataAt } = plain;
  const { channelCount } = layout;
  const { sampleRateHz } = plain.about;
  if (sampleRateHz > MAX_TAKE_RATE_HZ) throw new AppError("take-damaged");
  const durationSec = frames / sampleRateHz;
  if (durationSec > MAX_TAKE_SEC)
    throw new AppError("take-too-long", { limit: `${MAX_TAKE_SEC / 60} minutes` });

  const maker = new PeakMaker();
  maker.begin(channelCount, sampleRateHz);
  const frameBytes = channelCount * 2;
  const block = Array.from({ length: channelCount }, () => new Float32Array(FRAMES_AT_ONCE));
  const stream = createReadStream(path, {
    start: dataAt,
    end: dataAt + frames * frameBytes - 1,
    highWaterMark: FRAMES_AT_ONCE * frameBytes,
  });
  let left: Buffer = Buffer.alloc(0);
  for await (const chunk of stream) {
    const bytes: Buffer = left.length > 0 ? Buffer.concat([left, chunk as Buffer]) : (chunk as Buffer);
    const whole = Math.floor(bytes.length / frameBytes);
    for (let from = 0; from < whole; from += FRAMES_AT_ONCE) {
      const count = Math.min(FRAMES_AT_ONCE, whole - from);
      for (let i = 0; i < count; i++)
        for (let channel = 0; channel < channelCount; channel++)
          block[channel]![i] = bytes.readInt16LE((from + i) * frameBytes + channel * 2) / 32_768;
      maker.take(block, count);
    }
    left = bytes.subarray(whole * frameBytes);
  }
  return {
    durationSec,
    sampleRateHz,
    channelCount: channelCount === 2 ? 2 : 1,
    peaks: encodePeaks(maker.finish()),
  };
}

async function headOf(path: string, byteCount: number) {
  const file = await open(path, "r");
  try {
    const head = Buffer.alloc(Math.min(HEAD_BYTES, byteCount));
    const { bytesRead } = await file.read(head, 0, head.length, 0);
    const begun = head.subarray(0, bytesRead);
    if (begun.toString("latin1", 0, 4) !== "RIFF" || begun.toString("latin1", 8, 12) !== "WAVE") return null;
    return wavSamples(begun, byteCount);
  } finally {
    await file.close();
  }
}

function isOurs({ encoding, bytesPerSample, channelCount }: PcmLayout): boolean {
  return encoding === "signed" && bytesPerSample === 2 && channelCount <= 2;
}
