import { describe, expect, it } from "vitest";
import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { moduleBytes, signed, unsigned } from "@/lib/dsp/simd/wasmModule";
import { type DepthwiseShape, depthwiseKernel } from "@/lib/hearing/learned/simd/depthwiseKernel";
import { networkKernels } from "@/lib/hearing/learned/simd/networkKernels";
import { Product } from "@/lib/hearing/learned/simd/Product";
import { RoundedProduct } from "@/lib/hearing/learned/simd/RoundedProduct";

/** Numbers from -0.5 to 0.5 that look like chance and are always the same. */
function numbers(count: number, seed: number): Float32Array {
  let state = seed;
  return Float32Array.from({ length: count }, () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647 - 0.5;
  });
}

describe("numbers in a module", () => {
  // DWARF Debugging Information Format, version 4 (2010), section 7.6, figures 22 and 23.
  it.each([
    [2, [0x02]],
    [127, [0x7f]],
    [128, [0x80, 0x01]],
    [129, [0x81, 0x01]],
    [12_857, [0xb9, 0x64]],
  ])("writes %i without sign as the standard does", (value, bytes) => {
    expect(unsigned(value)).toEqual(bytes);
  });

  it.each([
    [2, [0x02]],
    [-2, [0x7e]],
    [127, [0xff, 0x00]],
    [-127, [0x81, 0x7f]],
    [128, [0x80, 0x01]],
    [-128, [0x80, 0x7f]],
    [129, [0x81, 0x01]],
    [-129, [0xff, 0x7e]],
  ])("writes %i with its sign as the standard does", (value, bytes) => {
    expect(signed(value)).toEqual(bytes);
  });
});

describe("the product of rows and weights", () => {
  const [terms, xStep] = [12, 5];
  for (const columns of [3, 4, 8, 11, 20]) {
    for (const rows of [1, 4, 7]) {
      it(`equals plain sums: ${rows} overlapping rows, ${columns} columns`, () => {
        const memory = new KernelMemory();
        const weights = numbers(terms * columns, 3);
        const bias = numbers(columns, 5);
        const x = numbers(xStep * rows + terms, 7);
        const at = (term: number, column: number): number => weights[term * columns + column]!;
        const product = new Product(memory, networkKernels(memory), { terms, columns }, at, bias);
        const from = { address: memory.keep(x), step: xStep };
        const to = { address: memory.take(rows * product.width), step: product.width };
        product.run(from, to, rows);
        product.run(from, to, rows, { addToResult: true, rectify: true });
        for (let row = 0; row < rows; row++) {
          for (let column = 0; column < columns; column++) {
            let sum = bias[column]!;
            for (let k = 0; k < terms; k++) sum += x[row * xStep + k]! * at(k, column);
            const found = memory.floats[to.address / 4 + row * product.width + column]!;
            expect(found).toBeCloseTo(Math.max(0, 2 * sum), 5);
          }
        }
      });
    }
  }

  it("refuses sums that do not fit vectors of four", () => {
    const memory = new KernelMemory();
    const make = () => new Product(memory, networkKernels(memory), { terms: 6, columns: 4 }, () => 0, null);
    expect(make).toThrow(/6 terms/);
  });
});

describe("the product of rows and weights in 16 bits", () => {
  const [terms, xStep, columns, rows] = [12, 4, 16, 7];

  function made(at: (term: number, column: number) => number, bias: Float32Array, memory: KernelMemory) {
    const mostFloats = (rows + 1) * xStep + terms;
    return new RoundedProduct(
      memory,
      networkKernels(memory),
      { terms, columns },
      at,
      bias,
      mostFloats + 8 - (mostFloats % 8),
    );
  }

  it("equals plain sums but for rounding, of overlapping rows", () => {
    const memory = new KernelMemory();
    const weights = numbers(terms * columns, 3);
    const bias = numbers(columns, 5);
    const x = numbers(xStep * rows + terms, 7);
    const at = (term: number, column: number): number => weights[term * columns + column]!;
    const product = made(at, bias, memory);
    const from = { address: memory.keep(x), step: xStep };
    const to = { address: memory.take(rows * product.width), step: product.width };
    // Rows of 4 steps with 12 terms: 36 numbers are no whole blocks of 8, 40 are.
    expect(() => product.run(from, to, rows)).toThrow(/blocks of 8, not 36/);
    product.run(from, to, rows + 1);
    product.run(from, to, rows + 1, { addToResult: true, rectify: true });
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        let sum = bias[column]!;
        for (let k = 0; k < terms; k++) sum += x[row * xStep + k]! * at(k, column);
        const found = memory.floats[to.address / 4 + row * product.width + column]!;
        expect(Math.abs(found - Math.max(0, 2 * sum))).toBeLessThan(5e-4);
      }
    }
  });

  it("has room for the largest sums there are: all numbers as large as the largest, of one sign", () => {
    const memory = new KernelMemory();
    const product = made(() => -0.75, new Float32Array(columns), memory);
    const from = { address: memory.keep(new Float32Array(xStep * rows + terms).fill(1e6)), step: xStep };
    const to = { address: memory.take((rows + 1) * product.width), step: product.width };
    product.run(from, to, rows + 1);
    const [found] = memory.floats.subarray(to.address / 4);
    expect(found! / (-0.75e6 * terms)).toBeCloseTo(1, 3);
  });

  it("gives the bias for rows of nothing", () => {
    const memory = new KernelMemory();
    const bias = numbers(columns, 5);
    const product = made(() => 0, bias, memory);
    const from = { address: memory.keep(new Float32Array(xStep * rows + terms)), step: xStep };
    const to = { address: memory.take((rows + 1) * product.width), step: product.width };
    product.run(from, to, rows + 1);
    expect(memory.floats.subarray(to.address / 4, to.address / 4 + columns)).toEqual(bias);
  });

  it("refuses extents that do not fit vectors", () => {
    const memory = new KernelMemory();
    const make = () =>
      new RoundedProduct(memory, networkKernels(memory), { terms: 8, columns: 12 }, () => 0, null, 8);
    expect(make).toThrow(/12 columns/);
  });
});

describe("rows laid side by side", () => {
  it("begin each where it is said to", () => {
    const memory = new KernelMemory();
    const starts = [0, 9, 3, 3, 12, 1, 5, 7];
    const from = numbers(24, 19);
    const out = memory.take(8 * starts.length);
    networkKernels(memory).interleave(starts)(memory.keep(from), out, 2);
    for (let k = 0; k < 8; k++) {
      starts.forEach((start, channel) => {
        expect(memory.floats[out / 4 + k * starts.length + channel]).toBe(from[k + start]);
      });
    }
    expect(() => networkKernels(memory).interleave([0, 1, 2])).toThrow(/3 channels/);
  });
});

describe("the convolution of each channel by itself", () => {
  const shape: DepthwiseShape = { channels: 8, timeTaps: 3, bandTaps: 2, timeStep: 160, bandStep: 24 };

  it("is a module that the engine accepts", () => {
    expect(WebAssembly.validate(moduleBytes([depthwiseKernel("run", shape)]))).toBe(true);
  });

  it("equals plain sums", () => {
    const memory = new KernelMemory();
    const { channels, timeTaps, bandTaps, timeStep, bandStep } = shape;
    const places = 5;
    const x = numbers(timeTaps * timeStep, 11);
    const w = numbers(timeTaps * bandTaps * channels, 13);
    const bias = numbers(channels, 17);
    const out = memory.take(places * channels);
    const run = networkKernels(memory).depthwise(shape);
    run(memory.keep(x), memory.keep(w), memory.keep(bias), out, places);
    for (let place = 0; place < places; place++) {
      for (let c = 0; c < channels; c++) {
        let sum = bias[c]!;
        for (let t = 0; t < timeTaps; t++) {
          for (let b = 0; b < bandTaps; b++) {
            sum +=
              w[(t * bandTaps + b) * channels + c]! * x[t * timeStep + b * bandStep + place * channels + c]!;
          }
        }
        expect(memory.floats[out / 4 + place * channels + c]).toBeCloseTo(Math.max(0, sum), 5);
      }
    }
  });
});

describe("the addition of rows", () => {
  it("adds one row, or a quarter of it, to many", () => {
    const memory = new KernelMemory();
    const { add, addShare } = networkKernels(memory);
    const x = memory.keep([1, 2, 3, 4]);
    const out = memory.keep([10, 20, 30, 40, 50, 60, 70, 80, 9]);
    add(x, out, 1, 2);
    addShare(x, out, 1, 1);
    // Shares are those of one frame in the chord head's step of four.
    expect([...memory.floats.subarray(out / 4, out / 4 + 9)]).toEqual([
      ...[11.25, 22.5, 33.75, 45],
      ...[51, 62, 73, 84, 9],
    ]);
  });
});
