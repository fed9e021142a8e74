import { MediaError } from "./MediaError";
import type { SampleSink } from "./SampleSink";

/** How plain samples lie in a file. */
export interface PcmLayout {
  encoding: "signed" | "unsigned" | "float";
  /** Size of the container of one sample, 1 to 4 bytes; 4 or 8 for floats. */
  bytesPerSample: number;
  littleEndian: boolean;
  channelCount: number;
}

const BLOCK_FRAMES = 65_536;

type ReadSample = (view: DataView, at: number) => number;

/** Reads one sample as -1 to +1. Integers are scaled by 2^(bits - 1), so that full scale negative is exactly -1. */
function sampleReader({ encoding, bytesPerSample, littleEndian }: PcmLayout): ReadSample {
  if (encoding === "float") {
    if (bytesPerSample === 4) return (view, at) => view.getFloat32(at, littleEndian);
    if (bytesPerSample === 8) return (view, at) => view.getFloat64(at, littleEndian);
  } else if (encoding === "unsigned") {
    if (bytesPerSample === 1) return (view, at) => (view.getUint8(at) - 128) / 128;
  } else if (bytesPerSample === 1) {
    return (view, at) => view.getInt8(at) / 128;
  } else if (bytesPerSample === 2) {
    return (view, at) => view.getInt16(at, littleEndian) / 32_768;
  } else if (bytesPerSample === 3) {
    return littleEndian
      ? (view, at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 8_388_608
      : (view, at) => ((view.getInt8(at) << 16) | view.getUint16(at + 1, false)) / 8_388_608;
  } else if (bytesPerSample === 4) {
    return (view, at) => view.getInt32(at, littleEndian) / 2_147_483_648;
  }
  throw new MediaError("damaged");
}

/**
 * Reads interleaved samples into the sink. Floats that are no numbers are read as 0.
 * @param data whole frames; bytes left over at the end are not read
 * @throws {MediaError} too-long
 */
export function readPcm(
  data: Uint8Array,
  layout: PcmLayout,
  sink: SampleSink,
  onProgress: (fraction: number) => void = () => {},
): void {
  const read = sampleReader(layout);
  const { bytesPerSample, channelCount } = layout;
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const frameBytes = bytesPerSample * channelCount;
  const frames = Math.floor(data.byteLength / frameBytes);
  const block = Array.from({ length: channelCount }, () => new Float32Array(Math.min(frames, BLOCK_FRAMES)));
  for (let from = 0; from < frames; from += BLOCK_FRAMES) {
    const count = Math.min(BLOCK_FRAMES, frames - from);
    for (let channel = 0; channel < channelCount; channel++) {
      const target = block[channel]!;
      let at = from * frameBytes + channel * bytesPerSample;
      for (let i = 0; i < count; i++, at += frameBytes) {
        const value = read(view, at);
        target[i] = Number.isFinite(value) ? value : 0;
      }
    }
    sink.append(block, count);
    onProgress((from + count) / frames);
  }
}
