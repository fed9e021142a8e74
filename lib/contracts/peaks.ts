import type { Hertz } from "@/lib/units/quantities";

/**
 * The peaks of a record at several zooms, as `GET /api/songs/:songId/peaks` sends them, whole or by ranges. All numbers
 * are little-endian.
 *
 *   byte 0   4 bytes   "LBPK"
 *        4   uint16    version, 1
 *        6   uint16    how many zooms, Z
 *        8   uint32    sample rate of the record, Hz (rounded)
 *       12   uint32    frames of the record (samples of one channel)
 *       16   Z entries of 12 bytes, finest zoom first:
 *              uint32  frames of the record to a pair
 *              uint32  how many pairs, ceil(frames / frames to a pair)
 *              uint32  byte at which the zoom's pairs begin
 *   then     for each zoom its pairs: int8 lowest, int8 highest sample over all channels, 127 = full scale
 */
export interface Peaks {
  sampleRateHz: Hertz;
  frameCount: number;
  /** Finest first. */
  zooms: PeakZoom[];
}

export interface PeakZoom {
  framesPerPair: number;
  /** Lowest and highest sample by turns, -127 to 127. */
  pairs: Int8Array<ArrayBuffer>;
}

/** Where the peaks of one zoom lie among the bytes. */
export interface PeakZoomPlace {
  framesPerPair: number;
  pairCount: number;
  /** At which the first pair begins; each takes two. */
  atByte: number;
}

/** What the peaks begin with: enough to fetch any stretch of them at any zoom. */
export interface PeaksHead {
  sampleRateHz: Hertz;
  frameCount: number;
  /** Finest first. */
  zooms: PeakZoomPlace[];
}

/** Frames to a pair, finest first. */
export const PEAK_ZOOMS = [256, 1_024, 4_096, 16_384] as const;
export const PEAKS_MEDIA_TYPE = "application/octet-stream";

const MAGIC = 0x4b50424c; // "LBPK"
const VERSION = 1;
const HEADER_BYTES = 16;
const ENTRY_BYTES = 12;

/** So many bytes hold the head of every peaks that are made: those at the zooms of {@link PEAK_ZOOMS}. */
export const PEAKS_HEAD_BYTES = HEADER_BYTES + PEAK_ZOOMS.length * ENTRY_BYTES;

export function encodePeaks({ sampleRateHz, frameCount, zooms }: Peaks): Uint8Array<ArrayBuffer> {
  const tableBytes = HEADER_BYTES + zooms.length * ENTRY_BYTES;
  const bytes = new Uint8Array(zooms.reduce((sum, { pairs }) => sum + pairs.length, tableBytes));
  const view = new DataView(bytes.buffer);
  view.setUint32(0, MAGIC, true);
  view.setUint16(4, VERSION, true);
  view.setUint16(6, zooms.length, true);
  view.setUint32(8, Math.round(sampleRateHz), true);
  view.setUint32(12, frameCount, true);
  let at = tableBytes;
  zooms.forEach(({ framesPerPair, pairs }, index) => {
    const entry = HEADER_BYTES + index * ENTRY_BYTES;
    view.setUint32(entry, framesPerPair, true);
    view.setUint32(entry + 4, pairs.length / 2, true);
    view.setUint32(entry + 8, at, true);
    bytes.set(new Uint8Array(pairs.buffer, pairs.byteOffset, pairs.length), at);
    at += pairs.length;
  });
  return bytes;
}

/**
 * Reads the head, of which there may be more behind.
 * @throws {RangeError} where the bytes are not such peaks, or too few
 */
export function decodePeaksHead(bytes: Uint8Array): PeaksHead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < HEADER_BYTES || view.getUint32(0, true) !== MAGIC) {
    throw new RangeError("These bytes are not the peaks of a record.");
  }
  const version = view.getUint16(4, true);
  if (version !== VERSION) throw new RangeError(`Peaks of version ${version} cannot be read.`);
  const zoomCount = view.getUint16(6, true);
  if (bytes.length < HEADER_BYTES + zoomCount * ENTRY_BYTES) throw new RangeError("The peaks are cut short.");
  const zooms = Array.from({ length: zoomCount }, (_, index): PeakZoomPlace => {
    const entry = HEADER_BYTES + index * ENTRY_BYTES;
    return {
      framesPerPair: view.getUint32(entry, true),
      pairCount: view.getUint32(entry + 4, true),
      atByte: view.getUint32(entry + 8, true),
    };
  });
  return { sampleRateHz: view.getUint32(8, true), frameCount: view.getUint32(12, true), zooms };
}

/** @throws {RangeError} where the bytes are not such peaks, or not all of them */
export function decodePeaks(bytes: Uint8Array): Peaks {
  const { sampleRateHz, frameCount, zooms } = decodePeaksHead(bytes);
  return {
    sampleRateHz,
    frameCount,
    zooms: zooms.map(({ framesPerPair, pairCount, atByte }): PeakZoom => {
      if (atByte + 2 * pairCount > bytes.length) throw new RangeError("The peaks are cut short.");
      const pairs = new Int8Array(2 * pairCount);
      pairs.set(new Int8Array(bytes.buffer, bytes.byteOffset + atByte, 2 * pairCount));
      return { framesPerPair, pairs };
    }),
  };
}
