import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { MediaError } from "./MediaError";
import type { PcmLayout } from "./pcm";
import { type PlainSamples, readPlain } from "./plainSamples";

/**
 * AIFF and AIFF-C, after "Audio Interchange File Format 1.3" (Apple, 1989) and "AIFF-C" (Apple, 1991, draft).
 * Compression types taken: NONE, twos, sowt (little-endian), raw (unsigned 8), in24, in32, fl32, fl64.
 */
const COMPRESSIONS: Readonly<
  Record<string, { encoding: PcmLayout["encoding"]; littleEndian: boolean; bytes?: number }>
> = {
  NONE: { encoding: "signed", littleEndian: false },
  twos: { encoding: "signed", littleEndian: false },
  sowt: { encoding: "signed", littleEndian: true },
  "raw ": { encoding: "unsigned", littleEndian: false, bytes: 1 },
  in24: { encoding: "signed", littleEndian: false, bytes: 3 },
  in32: { encoding: "signed", littleEndian: false, bytes: 4 },
  fl32: { encoding: "float", littleEndian: false, bytes: 4 },
  FL32: { encoding: "float", littleEndian: false, bytes: 4 },
  fl64: { encoding: "float", littleEndian: false, bytes: 8 },
  FL64: { encoding: "float", littleEndian: false, bytes: 8 },
};

/** An 80-bit IEEE 754 extended number: sign and exponent in 16 bits (bias 16383), then 64 bits with the leading one. */
export function readExtended(view: DataView, at: number): number {
  const head = view.getUint16(at);
  const high = view.getUint32(at + 2);
  const low = view.getUint32(at + 6);
  const value = (high * 2 ** 32 + low) * 2 ** ((head & 0x7fff) - 16_383 - 63);
  return head & 0x8000 ? -value : value;
}

interface AiffHeader {
  layout: PcmLayout;
  frameCount: number;
  sampleRateHz: number;
  bitsPerSample: number;
  dataAt: number;
  /** Bytes of samples that the sound chunk claims. */
  dataBytes: number;
}

/** @returns null where the file ends before its samples begin */
function readHeader(file: Uint8Array): AiffHeader | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  let common: Omit<AiffHeader, "dataAt" | "dataBytes"> | null = null;
  let sound: { dataAt: number; dataBytes: number } | null = null;
  const isAiffC = file[11] === 0x43;
  let at = 12;
  while (at + 8 <= file.length && !(common && sound)) {
    const id = String.fromCharCode(...file.subarray(at, at + 4));
    const size = view.getUint32(at + 4);
    const body = at + 8;
    if (id === "COMM") common = readCommon(view, file, body, size, isAiffC);
    if (id === "SSND") {
      if (body + 8 > file.length) return null;
      const offset = view.getUint32(body);
      sound = { dataAt: body + 8 + offset, dataBytes: size - 8 - offset };
    }
    at = body + size + (size % 2);
  }
  return common && sound ? { ...common, ...sound } : null;
}

function readCommon(view: DataView, file: Uint8Array, at: number, size: number, isAiffC: boolean) {
  if (at + size > file.length) return null;
  if (size < (isAiffC ? 22 : 18)) throw new MediaError("damaged");
  const channelCount = view.getUint16(at);
  const frameCount = view.getUint32(at + 2);
  const bitsPerSample = view.getUint16(at + 6);
  const sampleRateHz = readExtended(view, at + 8);
  const name = isAiffC ? String.fromCharCode(...file.subarray(at + 18, at + 22)) : "NONE";
  const compression = COMPRESSIONS[name];
  if (!compression) throw new MediaError("needs-ffmpeg");
  const bytesPerSample = compression.bytes ?? Math.ceil(bitsPerSample / 8);
  const allowed = compression.encoding === "float" ? [4, 8] : [1, 2, 3, 4];
  if (channelCount === 0 || !(sampleRateHz > 0) || !allowed.includes(bytesPerSample))
    throw new MediaError("damaged");
  const { encoding, littleEndian } = compression;
  return {
    layout: { encoding, bytesPerSample, littleEndian, channelCount },
    frameCount,
    sampleRateHz,
    bitsPerSample,
  };
}

/**
 * Where the samples of an AIFF or AIFF-C file lie.
 * @param head the file, or its beginning
 * @param byteLength of the whole file
 * @returns null where what is given ends before the samples begin
 * @throws {MediaError} empty, cut-short, damaged, needs-ffmpeg
 */
export function aiffSamples(head: Uint8Array, byteLength = head.length): PlainSamples | null {
  const header = readHeader(head);
  if (!header) return null;
  const { layout, frameCount, dataAt, dataBytes, sampleRateHz, bitsPerSample } = header;
  const promised = frameCount * layout.bytesPerSample * layout.channelCount;
  if (frameCount === 0) throw new MediaError("empty");
  if (dataAt + Math.max(promised, dataBytes) > byteLength) throw new MediaError("cut-short");
  if (dataBytes < promised) throw new MediaError("damaged");
  return {
    layout,
    dataAt,
    frames: frameCount,
    about: { sampleRateHz, bitsPerSample, container: "aiff", format: "aiff", mediaType: "audio/aiff" },
  };
}

/**
 * Decodes plain AIFF and AIFF-C.
 * @throws {MediaError} empty, cut-short, damaged, too-long, needs-ffmpeg
 */
export function decodeAiff(file: Uint8Array, options: DecodeOptions): DecodedAudio {
  const plain = aiffSamples(file);
  if (!plain) throw new MediaError("cut-short");
  return readPlain(plain, file, options);
}
