import type { FormatName } from "./formats";
import { findFirstFrame, skipId3v2 } from "./mpegFrames";

function textAt(bytes: Uint8Array, at: number, text: string): boolean {
  for (let i = 0; i < text.length; i++) if (bytes[at + i] !== text.charCodeAt(i)) return false;
  return true;
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}

/** The codec of an Ogg stream, by the first packet of its first page (RFC 3533, RFC 7845, Vorbis I, FLAC to Ogg mapping). */
function recogniseOgg(bytes: Uint8Array): FormatName | null {
  const packet = 27 + (bytes[26] ?? 0);
  if (textAt(bytes, packet, "\x01vorbis")) return "ogg-vorbis";
  if (textAt(bytes, packet, "OpusHead")) return "opus";
  if (textAt(bytes, packet, "\x7fFLAC")) return "ogg-flac";
  return null;
}

const ASF_HEADER = [0x30, 0x26, 0xb2, 0x75, 0x8e, 0x66, 0xcf, 0x11];
const WAVE64_HEADER = [0x72, 0x69, 0x66, 0x66, 0x2e, 0x91, 0xcf, 0x11];
const EBML_HEADER = [0x1a, 0x45, 0xdf, 0xa3];

/** Two ADTS headers in a row (ISO/IEC 14496-3): sync word 0xFFF, layer 0, then a frame of 13 bits' length. */
function isAdts(bytes: Uint8Array): boolean {
  let at = 0;
  for (let frame = 0; frame < 2; frame++) {
    if (at === bytes.length && frame > 0) return true;
    if (bytes[at] !== 0xff || ((bytes[at + 1] ?? 0) & 0xf6) !== 0xf0) return false;
    const length =
      (((bytes[at + 3] ?? 0) & 0x03) << 11) | ((bytes[at + 4] ?? 0) << 3) | ((bytes[at + 5] ?? 0) >> 5);
    if (length < 7) return false;
    at += length;
  }
  return true;
}

/**
 * What a file is, by its bytes alone; its name is never asked.
 * @param file the whole file, or its beginning (64 kB are enough, or more where large tags stand in front)
 * @returns null for what is none of the formats taken
 */
export function recognise(file: Uint8Array): FormatName | null {
  // Tags of MP3 players are put before other formats too.
  const bytes = file.subarray(skipId3v2(file));
  if (
    (textAt(bytes, 0, "RIFF") || textAt(bytes, 0, "RF64") || textAt(bytes, 0, "BW64")) &&
    textAt(bytes, 8, "WAVE")
  )
    return "wav";
  if (textAt(bytes, 0, "FORM") && (textAt(bytes, 8, "AIFF") || textAt(bytes, 8, "AIFC"))) return "aiff";
  if (textAt(bytes, 0, "fLaC")) return "flac";
  if (textAt(bytes, 0, "OggS")) return recogniseOgg(bytes);
  if (textAt(bytes, 4, "ftyp")) return "mp4";
  if (startsWith(bytes, EBML_HEADER)) return "matroska";
  if (startsWith(bytes, ASF_HEADER)) return "asf";
  if (startsWith(bytes, WAVE64_HEADER)) return "wave64";
  if (textAt(bytes, 0, "caff")) return "caf";
  if (textAt(bytes, 0, ".snd")) return "au";
  if (textAt(bytes, 0, "wvpk")) return "wavpack";
  if (textAt(bytes, 0, "MAC ")) return "ape";
  if (isAdts(bytes)) return "adts";
  if (findFirstFrame(file) !== null) return "mp3";
  return null;
}
