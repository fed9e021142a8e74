import type { FileHandle } from "node:fs/promises";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { MediaError } from "./MediaError";
import { type PcmLayout, readPcm } from "./pcm";
import { SampleSink } from "./SampleSink";

/** A file of samples that are not compressed. */
export interface PlainSamples {
  layout: PcmLayout;
  /** Samples of each channel. */
  frames: number;
  dataAt: number;
  about: Omit<DecodedAudio, "channels" | "durationSec" | "sourceChannelCount">;
}

/** Bytes read from the disk at once, about. */
const BLOCK_BYTES = 1 << 20;

function openSink({ layout, frames, about }: PlainSamples, options: DecodeOptions): SampleSink {
  if (frames === 0) throw new MediaError("empty");
  return new SampleSink(layout.channelCount, about.sampleRateHz, options, frames);
}

function decoded({ layout, frames, about }: PlainSamples, sink: SampleSink): DecodedAudio {
  return {
    ...about,
    channels: sink.finish(),
    durationSec: frames / about.sampleRateHz,
    sourceChannelCount: layout.channelCount,
  };
}

/**
 * Reads the samples of a file that stands in memory.
 * @throws {MediaError} empty, too-long
 */
export function readPlain(plain: PlainSamples, file: Uint8Array, options: DecodeOptions): DecodedAudio {
  const sink = openSink(plain, options);
  const { layout, dataAt, frames } = plain;
  const data = file.subarray(dataAt, dataAt + frames * layout.bytesPerSample * layout.channelCount);
  readPcm(data, layout, sink, options.onProgress);
  return decoded(plain, sink);
}

/**
 * Reads them from the disk piece by piece.
 * @throws {MediaError} empty, too-long; cut-short where the file has become shorter
 */
export async function readPlainFile(
  plain: PlainSamples,
  file: FileHandle,
  options: DecodeOptions,
): Promise<DecodedAudio> {
  const sink = openSink(plain, options);
  const { layout, dataAt, frames } = plain;
  const frameBytes = layout.bytesPerSample * layout.channelCount;
  const perBlock = Math.max(1, Math.floor(BLOCK_BYTES / frameBytes));
  const block = Buffer.alloc(Math.min(frames, perBlock) * frameBytes);
  for (let from = 0; from < frames; from += perBlock) {
    const length = Math.min(perBlock, frames - from) * frameBytes;
    for (let filled = 0; filled < length; ) {
      const { bytesRead } = await file.read(
        block,
        filled,
        length - filled,
        dataAt + from * frameBytes + filled,
      );
      if (bytesRead === 0) throw new MediaError("cut-short");
      filled += bytesRead;
    }
    readPcm(block.subarray(0, length), layout, sink);
    options.onProgress?.(Math.min(1, (from + perBlock) / frames));
  }
  return decoded(plain, sink);
}
