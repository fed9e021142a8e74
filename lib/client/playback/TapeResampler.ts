import type { LoopReader } from "./LoopReader";
import type { Stereo } from "./RecordSamples";

/** Frames of the tape that each frame is made of, half of them before it. */
const TAPS = 32;
const HALF = TAPS / 2;
/** The kernel is known at so many places between two frames, and on a line between these. */
const PHASES = 256;
/** Kaiser's window with this shape keeps what mirrors about 80 dB down (Kaiser 1974: 0.1102 (A - 8.7), A = 80). */
const KAISER_SHAPE = 0.1102 * (80 - 8.7);
/** Where the band ends, of half the rate: so short a kernel needs some room to fall off. */
const BAND = 0.92;
/** Frames of the tape that are held at once. */
const ROOM = 131_072;

/**
 * Reads a tape faster or slower, so that all of it is heard higher or lower by exactly that ratio: band-limited
 * interpolation by a windowed sinc (J. O. Smith, Digital Audio Resampling, CCRMA; from memory).
 */
export class TapeResampler {
  private ratio = 1;
  /** Between the frame that is made next and the one before, in frames of the tape. */
  private share = 0;
  private held = 0;
  private kernel = kernelFor(1);
  private readonly room: Stereo = [new Float32Array(ROOM), new Float32Array(ROOM)];
  private readonly coming: Stereo = [new Float32Array(ROOM), new Float32Array(ROOM)];

  constructor(private readonly reader: LoopReader) {}

  /** Begins at a frame of the record, fractions allowed. @param ratio frames of the tape for each that is made */
  begin(frame: number, ratio: number): void {
    const first = Math.floor(frame);
    this.share = frame - first;
    this.held = 0;
    this.reader.goTo(first - (HALF - 1));
    this.setRatio(ratio);
  }

  setRatio(ratio: number): void {
    if (ratio !== this.ratio) this.kernel = kernelFor(Math.min(1, 1 / ratio));
    this.ratio = ratio;
  }

  /** The frame of the tape at which the next frame is made, fractions kept. */
  get tape(): number {
    return this.reader.tape - this.held + HALF - 1 + this.share;
  }

  /** Makes the next frames, from the beginning of `into`. */
  read(into: Stereo, count: number): void {
    const { share, ratio, kernel } = this;
    this.hold(Math.floor(share + ratio * count) + TAPS);
    for (let index = 0; index < count; index += 1) {
      const at = share + ratio * index;
      const base = Math.floor(at);
      const place = (at - base) * PHASES;
      const row = Math.floor(place);
      const between = place - row;
      let [left, right] = [0, 0];
      for (let tap = 0; tap < TAPS; tap += 1) {
        const here = kernel[row * TAPS + tap]!;
        const weight = here + between * (kernel[(row + 1) * TAPS + tap]! - here);
        left += weight * this.room[0][base + tap]!;
        right += weight * this.room[1][base + tap]!;
      }
      into[0][index] = left;
      into[1][index] = right;
    }
    const gone = Math.floor(share + ratio * count);
    this.share = share + ratio * count - gone;
    for (const channel of this.room) channel.copyWithin(0, gone, this.held);
    this.held -= gone;
  }

  private hold(frames: number): void {
    const more = frames - this.held;
    if (more <= 0) return;
    this.reader.read(this.coming, more);
    for (let channel = 0; channel < 2; channel += 1)
      this.room[channel]!.set(this.coming[channel]!.subarray(0, more), this.held);
    this.held += more;
  }
}

/** One row of weights for each place between two frames, that of the next frame included. */
function kernelFor(cutoff: number): Float32Array {
  const kernel = new Float32Array((PHASES + 1) * TAPS);
  const band = BAND * cutoff;
  for (let row = 0; row <= PHASES; row += 1) {
    let sum = 0;
    for (let tap = 0; tap < TAPS; tap += 1) {
      const away = tap - (HALF - 1) - row / PHASES;
      const inside = 1 - (away / HALF) ** 2;
      const window = inside > 0 ? bessel(KAISER_SHAPE * Math.sqrt(inside)) / bessel(KAISER_SHAPE) : 0;
      const angle = Math.PI * band * away;
      const weight = window * (angle === 0 ? 1 : Math.sin(angle) / angle);
      kernel[row * TAPS + tap] = weight;
      sum += weight;
    }
    // So that what is steady stays as it is at every place.
    for (let tap = 0; tap < TAPS; tap += 1) kernel[row * TAPS + tap] = kernel[row * TAPS + tap]! / sum;
  }
  return kernel;
}

/** The modified Bessel function of the first kind and order 0, by its power series. */
function bessel(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > 1e-9 * sum; k += 1) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
