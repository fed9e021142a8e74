/** Frame headers of FLAC (RFC 9639, section 9.1), as far as needed to find the last frame of a file. */

function crc8(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x80 ? ((crc << 1) ^ 0x07) & 0xff : crc << 1;
  }
  return crc;
}

function crc16(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte << 8;
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? ((crc << 1) ^ 0x8005) & 0xffff : crc << 1;
  }
  return crc;
}

interface FrameStart {
  /** Sample that the frame ends before, counted from the beginning of the record. */
  endSample: number;
}

/** Reads the header at an offset, checked by its own checksum; null where there is none. */
function readFrameStart(file: Uint8Array, at: number, streamBlockSize: number): FrameStart | null {
  if (file[at] !== 0xff || (file[at + 1]! & 0xfe) !== 0xf8) return null;
  const variableBlocks = (file[at + 1]! & 1) === 1;
  const blockCode = file[at + 2]! >> 4;
  const rateCode = file[at + 2]! & 15;
  let cursor = at + 4;
  // The frame or sample number, coded like UTF-8 with up to seven bytes.
  const lead = file[cursor++] ?? 0;
  let number = lead;
  const more = Math.clz32(~(lead << 24));
  if (more === 1 || more > 7) return null;
  if (more > 1) {
    number = lead & (0x7f >> more);
    for (let i = 1; i < more; i++) number = number * 64 + ((file[cursor++] ?? 0) & 0x3f);
  }
  let blockSize: number;
  if (blockCode === 0) return null;
  if (blockCode === 1) blockSize = 192;
  else if (blockCode <= 5) blockSize = 144 << blockCode;
  else if (blockCode === 6) blockSize = (file[cursor++] ?? 0) + 1;
  else if (blockCode === 7) {
    blockSize = (((file[cursor] ?? 0) << 8) | (file[cursor + 1] ?? 0)) + 1;
    cursor += 2;
  } else blockSize = 1 << blockCode;
  if (rateCode === 12) cursor += 1;
  else if (rateCode === 13 || rateCode === 14) cursor += 2;
  if (cursor >= file.length || crc8(file.subarray(at, cursor)) !== file[cursor]) return null;
  const firstSample = variableBlocks ? number : number * streamBlockSize;
  return { endSample: firstSample + blockSize };
}

/** Furthest that a last frame may begin before the end of the file: 8 channels of 65536 samples of 32 bits are rare; this is ample. */
const SEARCH_BYTES = 1_048_576;

/**
 * Whether the last frame that a FLAC file promises is there and whole.
 * @param streamBlockSize largest block size of STREAMINFO
 * @param sampleCount samples that STREAMINFO promises
 */
export function holdsLastFrame(file: Uint8Array, streamBlockSize: number, sampleCount: number): boolean {
  for (let at = file.length - 6; at >= Math.max(0, file.length - SEARCH_BYTES); at--) {
    const frame = readFrameStart(file, at, streamBlockSize);
    if (!frame) continue;
    // A whole frame followed by its checksum gives 0.
    return frame.endSample >= sampleCount && crc16(file.subarray(at)) === 0;
  }
  return false;
}
