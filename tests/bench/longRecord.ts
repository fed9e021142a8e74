import { open } from "node:fs/promises";
import { wavBlocks, wavHeader } from "@/lib/server/media/wavFile";

/** Writes a record over and over again, up to some minutes, as 16-bit WAV. */
export async function writeLong(
  file: string,
  channels: readonly Float32Array[],
  sampleRateHz: number,
  minutes: number,
): Promise<void> {
  const frames = Math.round(minutes * 60 * sampleRateHz);
  const handle = await open(file, "w");
  try {
    await handle.write(wavHeader(channels.length, sampleRateHz, 16, frames));
    for (let left = frames; left > 0; ) {
      const count = Math.min(left, channels[0]!.length);
      const part = channels.map((channel) => channel.subarray(0, count));
      for (const block of wavBlocks(part, 16)) await handle.write(block);
      left -= count;
    }
  } finally {
    await handle.close();
  }
}
