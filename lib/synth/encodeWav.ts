import type { Hertz } from "@/lib/units/quantities";

const HEADER_BYTES = 44;
const BYTES_PER_SAMPLE = 2;
const PCM = 1;

/**
 * A WAVE file of 16-bit PCM (IBM and Microsoft, "Multimedia Programming Interface and Data Specifications 1.0",
 * 1991). Samples beyond -1 and 1 are clipped. Throws `RangeError` where channels are missing or differ in length,
 * or the file would pass the 4 GiB that its size fields can say.
 */
export function encodeWav(channels: readonly Float32Array[], sampleRateHz: Hertz): Uint8Array<ArrayBuffer> {
  const frames = channels[0]?.length;
  if (frames === undefined || channels.some((channel) => channel.length !== frames)) {
    throw new RangeError("A WAVE file needs one or more channels of the same length.");
  }
  const blockBytes = channels.length * BYTES_PER_SAMPLE;
  const dataBytes = frames * blockBytes;
  if (HEADER_BYTES + dataBytes > 2 ** 32 - 1)
    throw new RangeError("The sound is too long for one WAVE file.");

  const bytes = new Uint8Array(HEADER_BYTES + dataBytes);
  const view = new DataView(bytes.buffer);
  const tag = (at: number, text: string) => {
    for (let index = 0; index < 4; index += 1) bytes[at + index] = text.charCodeAt(index);
  };
  tag(0, "RIFF");
  view.setUint32(4, HEADER_BYTES - 8 + dataBytes, true);
  tag(8, "WAVE");
  tag(12, "fmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, channels.length, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, sampleRateHz * blockBytes, true);
  view.setUint16(32, blockBytes, true);
  view.setUint16(34, BYTES_PER_SAMPLE * 8, true);
  tag(36, "data");
  view.setUint32(40, dataBytes, true);
  let at = HEADER_BYTES;
  for (let frame = 0; frame < frames; frame += 1) {
    for (const channel of channels) {
      const sample = Math.max(-1, Math.min(1, channel[frame]!));
      view.setInt16(at, Math.round(sample * 32767), true);
      at += BYTES_PER_SAMPLE;
    }
  }
  return bytes;
}
