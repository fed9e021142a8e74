import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { MediaError } from "./MediaError";
import type { PcmLayout } from "./pcm";
import { type PlainSamples, readPlain } from "./plainSamples";

/**
 * RIFF/WAVE, after "Multimedia Programming Interface and Data Specifications 1.0" (IBM, Microsoft, 1991),
 * "Multiple Channel Audio Data and WAVE Files" (Microsoft, 2007: WAVE_FORMAT_EXTENSIBLE) and EBU Tech 3306
 * (RF64 and its ds64 chunk).
 */
const FORMAT_PCM = 1;
const FORMAT_FLOAT = 3;
const FORMAT_EXTENSIBLE = 0xfffe;
/** A size of 32 bits that says: look in ds64, or (streamed files) it was not known. */
const SIZE_UNKNOWN = 0xffffffff;

export interface WavFormat extends PcmLayout {
  sampleRateHz: number;
  bitsPerSample: number;
}

export interface WavHeader {
  format: WavFormat;
  dataAt: number;
  /** Bytes of samples that the file claims; null where it claims none (written as a stream). */
  dataBytes: number | null;
}

/**
 * Finds the format and the samples of a file. Chunks may stand in any order.
 * @returns null where the file ends before its samples begin
 * @throws {MediaError} needs-ffmpeg for compressed samples; damaged
 */
export function readWavHeader(file: Uint8Array): WavHeader | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  let format: WavFormat | null = null;
  let data: { at: number; bytes: number | null } | null = null;
  let longDataBytes: number | null = null;
  let at = 12;
  while (at + 8 <= file.length && !(format && data)) {
    const id = String.fromCharCode(...file.subarray(at, at + 4));
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id === "ds64" && body + 16 <= file.length) longDataBytes = Number(view.getBigUint64(body + 8, true));
    if (id === "fmt ") format = readFormat(view, body, size);
    let bytes: number | null = size;
    if (id === "data") {
      if (size === SIZE_UNKNOWN) bytes = longDataBytes;
      data = { at: body, bytes };
      // Nothing can follow samples without a size.
      if (bytes === null) break;
    }
    at = body + bytes + (bytes % 2);
  }
  if (!data || !format) return null;
  return { format, dataAt: data.at, dataBytes: data.bytes };
}

function readFormat(view: DataView, at: number, size: number): WavFormat | null {
  if (size < 16) throw new MediaError("damaged");
  if (at + size > view.byteLength) return null;
  let tag = view.getUint16(at, true);
  const channelCount = view.getUint16(at + 2, true);
  const sampleRateHz = view.getUint32(at + 4, true);
  const frameBytes = view.getUint16(at + 12, true);
  let bitsPerSample = view.getUint16(at + 14, true);
  if (tag === FORMAT_EXTENSIBLE && size >= 40) {
    const validBits = view.getUint16(at + 18, true);
    // The first two bytes of the sub-format's GUID are the tag.
    tag = view.getUint16(at + 24, true);
    if (validBits > 0 && validBits <= bitsPerSample) bitsPerSample = validBits;
  }
  if (tag !== FORMAT_PCM && tag !== FORMAT_FLOAT) throw new MediaError("needs-ffmpeg");
  const bytesPerSample = frameBytes / channelCount;
  const allowed = tag === FORMAT_FLOAT ? [4, 8] : [1, 2, 3, 4];
  if (channelCount === 0 || sampleRateHz === 0 || !allowed.includes(bytesPerSample))
    throw new MediaError("damaged");
  const encoding = tag === FORMAT_FLOAT ? "float" : bytesPerSample === 1 ? "unsigned" : "signed";
  return { encoding, bytesPerSample, littleEndian: true, channelCount, sampleRateHz, bitsPerSample };
}

/**
 * Where the samples of a WAV file lie.
 * @param head the file, or its beginning
 * @param byteLength of the whole file
 * @returns null where what is given ends before the samples begin
 * @throws {MediaError} cut-short, damaged, needs-ffmpeg
 */
export function wavSamples(head: Uint8Array, byteLength = head.length): PlainSamples | null {
  const header = readWavHeader(head);
  if (!header) return null;
  const { format: layout, dataAt, dataBytes } = header;
  const held = byteLength - dataAt;
  if (dataBytes !== null && dataBytes > held) throw new MediaError("cut-short");
  const { sampleRateHz, bitsPerSample } = layout;
  return {
    layout,
    dataAt,
    frames: Math.floor((dataBytes ?? held) / (layout.bytesPerSample * layout.channelCount)),
    about: { sampleRateHz, bitsPerSample, container: "wav", format: "wav", mediaType: "audio/wav" },
  };
}

/**
 * Decodes plain WAV.
 * @throws {MediaError} empty, cut-short, damaged, too-long, needs-ffmpeg
 */
export function decodeWav(file: Uint8Array, options: DecodeOptions): DecodedAudio {
  const plain = wavSamples(file);
  if (!plain) throw new MediaError("cut-short");
  return readPlain(plain, file, options);
}
