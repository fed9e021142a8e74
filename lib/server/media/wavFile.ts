/** Writes plain WAV (RIFF/WAVE, PCM) block by block, so that no second copy of a record stands in memory. */
const BLOCK_FRAMES = 65_536;

/** The 44 bytes in front of the samples. */
export function wavHeader(
  channelCount: number,
  sampleRateHz: number,
  bits: 16 | 24,
  frames: number,
): Uint8Array {
  const frameBytes = channelCount * (bits / 8);
  const dataBytes = frames * frameBytes;
  const view = new DataView(new ArrayBuffer(44));
  const text = (at: number, word: string) => {
    for (let i = 0; i < word.length; i++) view.setUint8(at + i, word.charCodeAt(i));
  };
  text(0, "RIFF");
  view.setUint32(4, 36 + dataBytes + (dataBytes % 2), true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channelCount, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, sampleRateHz * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bits, true);
  text(36, "data");
  view.setUint32(40, dataBytes, true);
  return new Uint8Array(view.buffer);
}

/** The samples as interleaved integers, in blocks; the padding byte of an odd length comes last. */
export function* wavBlocks(channels: readonly Float32Array[], bits: 16 | 24): Generator<Uint8Array> {
  const frames = channels[0]?.length ?? 0;
  const sampleBytes = bits / 8;
  const scale = 2 ** (bits - 1);
  for (let from = 0; from < frames; from += BLOCK_FRAMES) {
    const count = Math.min(BLOCK_FRAMES, frames - from);
    const view = new DataView(new ArrayBuffer(count * channels.length * sampleBytes));
    let at = 0;
    for (let i = from; i < from + count; i++) {
      for (const channel of channels) {
        const value = Math.max(-scale, Math.min(scale - 1, Math.round(channel[i]! * scale)));
        view.setUint16(at, value & 0xffff, true);
        if (bits === 24) view.setInt8(at + 2, value >> 16);
        at += sampleBytes;
      }
    }
    yield new Uint8Array(view.buffer);
  }
  if ((frames * channels.length * sampleBytes) % 2 === 1) yield new Uint8Array(1);
}
