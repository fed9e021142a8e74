import { FLACDecoder } from "@wasm-audio-decoders/flac";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { type DecodedPiece, pieces } from "./feed";
import { holdsLastFrame } from "./flacFrames";
import { MediaError } from "./MediaError";
import { skipId3v2 } from "./mpegFrames";
import { checkOggPages } from "./ogg";
import { SampleSink } from "./SampleSink";

/** The STREAMINFO block (RFC 9639, section 8.2). */
interface StreamInfo {
  sampleRateHz: number;
  channelCount: number;
  bitsPerSample: number;
  maxBlockSize: number;
  /** Null where the encoder did not know. */
  sampleCount: number | null;
}

/** @param at offset of the block's header, right behind "fLaC" */
function readStreamInfo(file: Uint8Array, at: number): StreamInfo {
  if (at + 38 > file.length) throw new MediaError("cut-short");
  if ((file[at]! & 0x7f) !== 0) throw new MediaError("damaged");
  const view = new DataView(file.buffer, file.byteOffset + at + 4);
  const packed = view.getBigUint64(10);
  const sampleCount = Number(packed & 0xfffffffffn);
  return {
    sampleRateHz: Number(packed >> 44n),
    channelCount: Number((packed >> 41n) & 7n) + 1,
    bitsPerSample: Number((packed >> 36n) & 31n) + 1,
    maxBlockSize: view.getUint16(2),
    sampleCount: sampleCount === 0 ? null : sampleCount,
  };
}

/** In Ogg the block stands in the first packet, behind "\x7fFLAC", version (2), packet count (2) and "fLaC". */
function streamInfoAt(file: Uint8Array, isOgg: boolean): number {
  return isOgg ? 27 + (file[26] ?? 0) + 5 + 4 + 4 : 4;
}

/**
 * Decodes FLAC, by itself or in Ogg.
 * @throws {MediaError} cut-short, damaged, too-long, empty
 */
export async function decodeFlac(
  whole: Uint8Array,
  isOgg: boolean,
  options: DecodeOptions,
): Promise<DecodedAudio> {
  const file = whole.subarray(skipId3v2(whole));
  if (isOgg) checkOggPages(file);
  const info = readStreamInfo(file, streamInfoAt(file, isOgg));
  const sink = new SampleSink(info.channelCount, info.sampleRateHz, options, info.sampleCount);
  const decoder = new FLACDecoder();
  await decoder.ready;
  let faults = 0;
  const take = (piece: DecodedPiece) => {
    faults += piece.errors.length;
    if (piece.samplesDecoded > 0) sink.append(piece.channelData, piece.samplesDecoded);
  };
  try {
    for (const { bytes, fraction } of pieces(file)) {
      take(await decoder.decode(bytes));
      options.onProgress?.(fraction);
    }
    if (file.length > 0) take(await decoder.flush());
  } finally {
    decoder.free();
  }
  // A frame that fails its checksum is left out by the decoder, in the middle or at the end.
  if (info.sampleCount !== null && sink.frameCount < info.sampleCount) {
    // In Ogg the pages have told already that nothing is missing at the end.
    const reachesEnd = isOgg || holdsLastFrame(file, info.maxBlockSize, info.sampleCount);
    throw new MediaError(reachesEnd ? "damaged" : "cut-short");
  }
  if (faults > 0) throw new MediaError("damaged");
  if (sink.frameCount === 0) throw new MediaError("empty");
  return {
    sampleRateHz: info.sampleRateHz,
    channels: sink.finish(),
    durationSec: sink.frameCount / info.sampleRateHz,
    container: "flac",
    format: isOgg ? "ogg-flac" : "flac",
    mediaType: isOgg ? "audio/ogg" : "audio/flac",
    sourceChannelCount: info.channelCount,
    bitsPerSample: info.bitsPerSample,
  };
}
