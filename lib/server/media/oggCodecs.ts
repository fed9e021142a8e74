import { OggVorbisDecoder } from "@wasm-audio-decoders/ogg-vorbis";
import { OggOpusDecoder } from "ogg-opus-decoder";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { type DecodedPiece, pieces } from "./feed";
import { MediaError } from "./MediaError";
import { skipId3v2 } from "./mpegFrames";
import { checkOggPages } from "./ogg";
import { SampleSink } from "./SampleSink";

/** Opus always decodes at this rate (RFC 7845, section 5.1: the input rate in its header is for information only). */
const OPUS_RATE_HZ = 48_000;

interface OggDecoder {
  ready: Promise<void>;
  decode(bytes: Uint8Array): DecodedPiece | Promise<DecodedPiece>;
  flush(): Promise<DecodedPiece>;
  free(): void;
}

interface FirstPacket {
  channelCount: number;
  sampleRateHz: number;
}

/** Vorbis I, section 4.2.2: type and "vorbis" (7 bytes), version (4), channels, rate (4, little-endian). */
function readVorbisHead(file: Uint8Array, packet: number): FirstPacket {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  return { channelCount: view.getUint8(packet + 11), sampleRateHz: view.getUint32(packet + 12, true) };
}

/** RFC 7845, section 5.1: "OpusHead" (8 bytes), version, channels. */
function readOpusHead(file: Uint8Array, packet: number): FirstPacket {
  return { channelCount: file[packet + 9]!, sampleRateHz: OPUS_RATE_HZ };
}

async function decodeOgg(
  whole: Uint8Array,
  options: DecodeOptions,
  readHead: (file: Uint8Array, packet: number) => FirstPacket,
  decoder: OggDecoder,
): Promise<Pick<DecodedAudio, "sampleRateHz" | "channels" | "durationSec" | "sourceChannelCount">> {
  const file = whole.subarray(skipId3v2(whole));
  const { lastGranule } = checkOggPages(file);
  const { channelCount, sampleRateHz } = readHead(file, 27 + file[26]!);
  const sink = new SampleSink(channelCount, sampleRateHz, options, lastGranule || null);
  await decoder.ready;
  const take = (piece: DecodedPiece) => {
    if (piece.errors.length > 0) throw new MediaError("damaged");
    if (piece.samplesDecoded > 0) sink.append(piece.channelData, piece.samplesDecoded);
  };
  try {
    for (const { bytes, fraction } of pieces(file)) {
      take(await decoder.decode(bytes));
      options.onProgress?.(fraction);
    }
    take(await decoder.flush());
  } finally {
    decoder.free();
  }
  if (sink.frameCount === 0) throw new MediaError("empty");
  const durationSec = sink.frameCount / sampleRateHz;
  return { sampleRateHz, channels: sink.finish(), durationSec, sourceChannelCount: channelCount };
}

/**
 * Decodes Ogg Vorbis.
 * @throws {MediaError} cut-short, damaged, too-long, empty
 */
export async function decodeOggVorbis(file: Uint8Array, options: DecodeOptions): Promise<DecodedAudio> {
  const decoded = await decodeOgg(file, options, readVorbisHead, new OggVorbisDecoder());
  return {
    ...decoded,
    container: "ogg-vorbis",
    format: "ogg-vorbis",
    mediaType: "audio/ogg",
    bitsPerSample: null,
  };
}

/**
 * Decodes Ogg Opus.
 * @throws {MediaError} cut-short, damaged, too-long, empty
 */
export async function decodeOggOpus(file: Uint8Array, options: DecodeOptions): Promise<DecodedAudio> {
  const decoded = await decodeOgg(file, options, readOpusHead, new OggOpusDecoder());
  return { ...decoded, container: "opus", format: "opus", mediaType: "audio/ogg", bitsPerSample: null };
}
