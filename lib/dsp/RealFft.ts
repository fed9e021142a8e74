import {
  ELEMENT_BYTES,
  joinKernel,
  layKernel,
  pass2Kernel,
  pass4Kernel,
  tellApartKernel,
} from "./simd/fftKernel";
import { type Address, KernelMemory } from "./simd/KernelMemory";
import { startKernels } from "./simd/startKernels";

/** What one pass over the elements is given. */
interface Pass {
  twiddles: Address;
  /** Groups of elements that share their twiddles, and how many there are to a group. */
  groups: number;
  length: number;
}

/**
 * A plan for discrete Fourier transforms of real frames of one size (a power of two from 32 up), single floats in
 * WebAssembly's vectors of four. Real samples are read as half as many complex numbers (H. V. Sorensen et al.,
 * "Real-valued fast Fourier transform algorithms", IEEE TASSP 35 (1987)); of these, every fourth makes a sequence,
 * and the four are transformed side by side in the passes of Stockham's radix-4 transform (C. Van Loan,
 * "Computational Frameworks for the Fast Fourier Transform", SIAM 1992), then joined. `re` and `im` hold the last
 * result until the next call.
 */
export class RealFft {
  readonly size: number;
  readonly memory: KernelMemory;
  /** Where `re` begins, and how many bytes later `im` does. */
  readonly spectrum: Address;
  readonly imBytes: number;
  private readonly kernels: ReturnType<typeof startKernels>;
  private readonly frame: Address;
  private readonly window: Address;
  private readonly elements: number;
  private readonly passes: Pass[] = [];
  private readonly joinTwiddles: Address;
  private readonly apartTwiddles: Address;
  /** Elements by turns; what is joined takes the place of the second. */
  private readonly buffers: [Address, Address];
  private readonly joined: Address;

  /**
   * @param window factors on the samples of every frame, `size` of them; null for none
   * @param memory where frames lie; one of its own unless given
   */
  constructor(size: number, window: ArrayLike<number> | null = null, memory = new KernelMemory()) {
    if (!Number.isInteger(size) || size < 32 || (size & (size - 1)) !== 0) {
      throw new RangeError(`The size of a transform must be a power of two from 32 up, not ${size}.`);
    }
    if (window && window.length !== size) {
      throw new RangeError(`A window of ${window.length} samples does not fit a transform of ${size}.`);
    }
    this.size = size;
    this.memory = memory;
    const half = size / 2;
    const elements = size / 8;
    this.elements = elements;
    this.imBytes = 4 * (half + 4);
    this.kernels = startKernels(memory, [
      layKernel(),
      pass4Kernel(elements),
      pass2Kernel(elements),
      joinKernel(elements, this.imBytes),
      tellApartKernel(this.imBytes),
    ]);
    this.frame = memory.take(size);
    // The halves of telling even from odd samples are taken here, where they cost nothing.
    this.window = memory.keep(Float32Array.from({ length: size }, (_, n) => (window ? window[n]! : 1) / 2));
    for (let length = 1, left = elements; left >= 4; length *= 4, left /= 4) {
      const groups = left / 4;
      const powers = Array.from({ length: groups }, (_, p) => [1, 2, 3].flatMap((j) => turn(j * p, left)));
      this.passes.push({ twiddles: memory.keep(powers.flat()), groups, length });
    }
    const blocks = (count: number, powers: readonly number[], circle: number): Address =>
      memory.keep(
        Array.from({ length: count }, (_, block) =>
          powers.flatMap((j) => {
            const turns = [0, 1, 2, 3].map((k) => turn(j * (4 * block + k), circle));
            return [...turns.map(([re]) => re), ...turns.map(([, im]) => im)];
          }),
        ).flat(),
      );
    this.joinTwiddles = blocks(elements / 4, [1, 2, 3], half);
    this.apartTwiddles = blocks(elements / 2, [1], size);
    this.buffers = [memory.take((elements * ELEMENT_BYTES) / 4), memory.take((elements * ELEMENT_BYTES) / 4)];
    this.joined = memory.take((2 * this.imBytes) / 4);
    this.spectrum = memory.take((2 * this.imBytes) / 4);
  }

  /** Bins of the one-sided spectrum: size / 2 + 1. */
  get binCount(): number {
    return this.size / 2 + 1;
  }

  /** Real parts of bins 0 to size / 2, unscaled; a view of the memory. */
  get re(): Float32Array {
    return this.memory.floats.subarray(this.spectrum / 4, this.spectrum / 4 + this.binCount);
  }

  get im(): Float32Array {
    const from = (this.spectrum + this.imBytes) / 4;
    return this.memory.floats.subarray(from, from + this.binCount);
  }

  /** Transforms `frame` (length `size`). */
  transform(frame: ArrayLike<number>): void {
    if (frame.length !== this.size) {
      throw new RangeError(`A frame of ${frame.length} samples does not fit a transform of ${this.size}.`);
    }
    this.memory.floats.set(frame, this.frame / 4);
    this.transformAt(this.frame);
  }

  /**
   * Transforms the `size` samples that lie in the memory from `address` on.
   * @param spectrum where the result goes, twice `imBytes` of room; where {@link spectrum} lies unless said otherwise
   */
  transformAt(address: Address, spectrum = this.spectrum): void {
    const { elements, kernels, joined, imBytes } = this;
    let [from, to] = this.buffers;
    kernels.lay!(address, this.window, from, elements);
    for (const { twiddles, groups, length } of this.passes) {
      kernels.pass4!(from, to, twiddles, groups, length, length * ELEMENT_BYTES);
      [from, to] = [to, from];
    }
    if (4 ** this.passes.length !== elements) {
      kernels.pass2!(from, to, elements / 2);
      [from, to] = [to, from];
    }
    kernels.join!(from, this.joinTwiddles, joined, elements / 4);
    const { floats } = this.memory;
    const half = this.size / 2;
    floats[joined / 4 + half] = floats[joined / 4]!;
    floats[(joined + imBytes) / 4 + half] = floats[(joined + imBytes) / 4]!;
    const high = 4 * (half - 3);
    kernels.tellApart!(joined, joined + high, spectrum, spectrum + high, this.apartTwiddles, elements / 2);
    // The middle bin is its own mirror; with the halves taken before, it stands doubled.
    floats[spectrum / 4 + half / 2] = 2 * floats[joined / 4 + half / 2]!;
    floats[(spectrum + imBytes) / 4 + half / 2] = -2 * floats[(joined + imBytes) / 4 + half / 2]!;
  }

  /** Writes the magnitudes of bins `first` on of the last result, as many as `into` holds. */
  magnitudes(into: Float32Array, first = 0): Float32Array {
    const { re, im } = this;
    for (let k = 0; k < into.length; k++) {
      const a = re[first + k]!;
      const b = im[first + k]!;
      into[k] = Math.sqrt(a * a + b * b);
    }
    return into;
  }
}

/** exp(-2 pi i place / circle). */
function turn(place: number, circle: number): [number, number] {
  const angle = (2 * Math.PI * (place % circle)) / circle;
  return [Math.cos(angle), -Math.sin(angle)];
}
