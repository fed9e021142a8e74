import { open } from "node:fs/promises";
import { type DecodeHereOptions, decodeHere } from "./decode";
import { MediaError } from "./MediaError";
import { wavBlocks, wavHeader } from "./wavFile";

/** Sizes in a WAV header have 32 bits. */
const MOST_DATA_BYTES = 2 ** 32 - 64;

/**
 * Decodes a record and writes it as WAV, in this thread; see `makeListeningCopy`. Nothing is left behind on failure
 * but a file that is not whole, which its caller gives up.
 * @throws {MediaError}
 */
export async function copyHere(
  fromPath: string,
  toPath: string,
  options: DecodeHereOptions,
): Promise<{ byteCount: number }> {
  const { channels, sampleRateHz, bitsPerSample } = await decodeHere(fromPath, options);
  const bits = bitsPerSample !== null && bitsPerSample > 16 ? 24 : 16;
  const frames = channels[0]!.length;
  if (frames * channels.length * (bits / 8) > MOST_DATA_BYTES)
    throw new MediaError("too-large", { limit: "4 GB" });
  const file = await open(toPath, "w");
  try {
    let byteCount = 0;
    const write = async (bytes: Uint8Array) => {
      await file.write(bytes);
      byteCount += bytes.length;
    };
    await write(wavHeader(channels.length, Math.round(sampleRateHz), bits, frames));
    for (const block of wavBlocks(channels, bits)) await write(block);
    await file.sync();
    return { byteCount };
  } finally {
    await file.close();
  }
}
