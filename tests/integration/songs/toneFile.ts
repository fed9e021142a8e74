/** A WAV file (16 bits, one channel, 8 kHz) of a tone in two parts, so that there is something to hear. */
export function toneFile(durationSec: number, { sampleRateHz = 8_000, level = 0.5 } = {}): Buffer {
  const frames = Math.round(durationSec * sampleRateHz);
  const file = Buffer.alloc(44 + frames * 2);
  file.write("RIFF", 0);
  file.writeUInt32LE(36 + frames * 2, 4);
  file.write("WAVEfmt ", 8);
  file.writeUInt32LE(16, 16);
  file.writeUInt16LE(1, 20);
  file.writeUInt16LE(1, 22);
  file.writeUInt32LE(sampleRateHz, 24);
  file.writeUInt32LE(sampleRateHz * 2, 28);
  file.writeUInt16LE(2, 32);
  file.writeUInt16LE(16, 34);
  file.write("data", 36);
  file.writeUInt32LE(frames * 2, 40);
  for (let i = 0; i < frames; i++) {
    const timeSec = i / sampleRateHz;
    // Half a second each of G and D major triads, struck anew each half second.
    const chord = Math.floor(timeSec) % 2 === 0 ? [196, 246.94, 293.66] : [146.83, 185, 220];
    const decay = Math.exp(-4 * (timeSec % 0.5));
    const sample = chord.reduce((sum, hz) => sum + Math.sin(2 * Math.PI * hz * timeSec), 0) / chord.length;
    file.writeInt16LE(Math.round(sample * decay * level * 32_767), 44 + i * 2);
  }
  return file;
}

/** The same samples as AIFF (big-endian), which browsers do not play. */
export function asAiff(wav: Buffer): Buffer {
  const frames = (wav.length - 44) / 2;
  const sampleRateHz = wav.readUInt32LE(24);
  const file = Buffer.alloc(54 + frames * 2);
  file.write("FORM", 0);
  file.writeUInt32BE(46 + frames * 2, 4);
  file.write("AIFFCOMM", 8);
  file.writeUInt32BE(18, 16);
  file.writeUInt16BE(1, 20);
  file.writeUInt32BE(frames, 22);
  file.writeUInt16BE(16, 26);
  // 80-bit extended: exponent biased by 16383, mantissa with its leading one.
  const exponent = Math.floor(Math.log2(sampleRateHz));
  file.writeUInt16BE(16_383 + exponent, 28);
  file.writeBigUInt64BE(BigInt(sampleRateHz) << BigInt(63 - exponent), 30);
  file.write("SSND", 38);
  file.writeUInt32BE(8 + frames * 2, 42);
  for (let i = 0; i < frames; i++) file.writeInt16BE(wav.readInt16LE(44 + i * 2), 54 + i * 2);
  return file;
}
