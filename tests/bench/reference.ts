import FFT from "fft.js";

/** The reference of sound: a transform of 4096 points every 512 samples at 22.05 kHz, by fft.js alone. */
export function transforms(durationSec: number): void {
  const fft = new FFT(4096);
  const input = Array.from({ length: 4096 }, (_, index) => Math.sin(index));
  const output = fft.createComplexArray();
  for (let frame = 0; frame < (durationSec * 22050) / 512; frame += 1) fft.realTransform(output, input);
}

/** The reference of reckoning: a million numbers sorted. */
export function sorting(): void {
  Float64Array.from({ length: 1_000_000 }, (_, index) => (index * 7_919) % 1_000_003).sort();
}
