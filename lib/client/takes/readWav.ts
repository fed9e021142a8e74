import type { Hertz } from "@/lib/units/quantities";

/** Sound as it was recorded. */
export interface TakeSamples {
  sampleRateHz: Hertz;
  /** One or two, of the same length, full scale 1. */
  channels: Float32Array<ArrayBuffer>[];
}

const HEAD_BYTES = 44;
/** As `encodeWav` scales. */
const FULL = 32_767;

/**
 * Reads a WAV as `lib/synth/encodeWav.ts` writes it, 16 bits behind a head of 44 bytes, sample for sample.
 * @throws RangeError where the bytes are none of that form
 */
export function readWav(bytes: ArrayBuffer): TakeSamples {
  const view = new DataView(bytes);
  const tag = (at: number) => String.fromCharCode(...new Uint8Array(bytes, at, 4));
  if (bytes.byteLength < HEAD_BYTES || tag(0) !== "RIFF" || tag(36) !== "data")
    throw new RangeError("The sound of this take is damaged.");
  const channelCount = view.getUint16(22, true);
  const sampleRateHz = view.getUint32(24, true);
  const frames = (bytes.byteLength - HEAD_BYTES) / (2 * channelCount);
  if ((channelCount !== 1 && channelCount !== 2) || !Number.isInteger(frames) || sampleRateHz === 0)
    throw new RangeError("The sound of this take is damaged.");
  const channels = Array.from({ length: channelCount }, () => new Float32Array(frames));
  let at = HEAD_BYTES;
  for (let frame = 0; frame < frames; frame++)
    for (const channel of channels) {
      channel[frame] = view.getInt16(at, true) / FULL;
      at += 2;
    }
  return { sampleRateHz, channels };
}
