import type { Hertz } from "@/lib/units/quantities";

/**
 * The copy of a record that passages are heard from, as `GET /api/songs/:songId/ear` sends it, by ranges. All numbers are
 * little-endian.
 *
 *   byte 0   4 bytes   "LBEC"
 *        4   uint16    version, 1
 *        6   uint16    channels, 1 or 2
 *        8   uint32    sample rate, Hz
 *       12   uint32    frames (samples of each channel)
 *       16   float32   root-mean-square level over the whole record of the average of its channels, full scale 1
 *       20   float32   the same of half of what the left channel has more than the right one; 0 for one channel
 *       24   8 bytes   0
 *       32   frames, each an int16 a channel, left first; EAR_COPY_FULL_SCALE stands for full scale
 */
export interface EarCopyHead {
  channelCount: 1 | 2;
  sampleRateHz: Hertz;
  frameCount: number;
  /** Of the record itself, at its own rate: by it the ear brings all records to one level. */
  level: number;
  /** Of what tells the channels apart, in the same measure: by it the ear takes a record for mono. */
  sideLevel: number;
}

/** Half of what 16 bits hold: what decoders and filters let run over full scale is kept. */
export const EAR_COPY_FULL_SCALE = 16_384;
export const EAR_COPY_VERSION = 1;
export const EAR_COPY_MEDIA_TYPE = "application/octet-stream";
export const EAR_COPY_HEAD_BYTES = 32;

/** How far the server is with a record's copy; `ready` means that all of it can be fetched. */
export interface EarCopyStatus {
  state: "ready" | "making";
  /** 0 to 1. */
  fraction: number;
}

const MAGIC = 0x4345424c; // "LBEC"
const SAMPLE_BYTES = 2;

export function encodeEarCopyHead(head: EarCopyHead): Uint8Array<ArrayBuffer> {
  const { channelCount, sampleRateHz, frameCount, level, sideLevel } = head;
  const view = new DataView(new ArrayBuffer(EAR_COPY_HEAD_BYTES));
  view.setUint32(0, MAGIC, true);
  view.setUint16(4, EAR_COPY_VERSION, true);
  view.setUint16(6, channelCount, true);
  view.setUint32(8, Math.round(sampleRateHz), true);
  view.setUint32(12, frameCount, true);
  view.setFloat32(16, level, true);
  view.setFloat32(20, sideLevel, true);
  return new Uint8Array(view.buffer);
}

/**
 * @param bytes the first {@link EAR_COPY_HEAD_BYTES} of a copy, or more
 * @throws {RangeError} where they do not begin such a copy
 */
export function decodeEarCopyHead(bytes: Uint8Array): EarCopyHead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < EAR_COPY_HEAD_BYTES || view.getUint32(0, true) !== MAGIC) {
    throw new RangeError("These bytes do not begin the copy of a record.");
  }
  const version = view.getUint16(4, true);
  if (version !== EAR_COPY_VERSION) throw new RangeError(`A copy of version ${version} cannot be read.`);
  const channelCount = view.getUint16(6, true);
  const sampleRateHz = view.getUint32(8, true);
  const level = view.getFloat32(16, true);
  const sideLevel = view.getFloat32(20, true);
  if ((channelCount !== 1 && channelCount !== 2) || sampleRateHz === 0 || !(level >= 0 && sideLevel >= 0)) {
    throw new RangeError("The copy of the record is damaged.");
  }
  return { channelCount, sampleRateHz, frameCount: view.getUint32(12, true), level, sideLevel };
}

/** Frames of a copy, the first counted and the last not. */
export interface FrameRange {
  startFrame: number;
  endFrame: number;
}

/** Where frames lie in the file: bytes `start` to `end`, both included. There must be at least one. */
export function bytesOfFrames(
  { channelCount }: Pick<EarCopyHead, "channelCount">,
  { startFrame, endFrame }: FrameRange,
): { start: number; end: number } {
  const frameBytes = channelCount * SAMPLE_BYTES;
  return {
    start: EAR_COPY_HEAD_BYTES + startFrame * frameBytes,
    end: EAR_COPY_HEAD_BYTES + endFrame * frameBytes - 1,
  };
}

/** Channels of equal length as frames; what lies past twice full scale is cut off. */
export function encodeFrames(channels: readonly Float32Array[], count: number): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer(count * channels.length * SAMPLE_BYTES));
  let at = 0;
  for (let i = 0; i < count; i++) {
    for (const channel of channels) {
      const value = Math.round(channel[i]! * EAR_COPY_FULL_SCALE);
      view.setInt16(at, Math.max(-32_768, Math.min(32_767, value)), true);
      at += SAMPLE_BYTES;
    }
  }
  return new Uint8Array(view.buffer);
}

/**
 * Frames as channels, full scale 1.
 * @throws {RangeError} where the last frame is not whole
 */
export function decodeFrames(
  bytes: Uint8Array,
  { channelCount }: Pick<EarCopyHead, "channelCount">,
): Float32Array<ArrayBuffer>[] {
  const count = bytes.length / (channelCount * SAMPLE_BYTES);
  if (!Number.isInteger(count)) throw new RangeError("The copy of the record is cut short.");
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const channels = Array.from({ length: channelCount }, () => new Float32Array(count));
  let at = 0;
  for (let i = 0; i < count; i++) {
    for (const channel of channels) {
      channel[i] = view.getInt16(at, true) / EAR_COPY_FULL_SCALE;
      at += SAMPLE_BYTES;
    }
  }
  return channels;
}
