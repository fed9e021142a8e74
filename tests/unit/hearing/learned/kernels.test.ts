import { describe, expect, it } from "vitest";
import { KernelMemory } from "@/lib/dsp/simd/KernelMemory";
import { moduleBytes, signed, unsigned } from "@/lib/dsp/simd/wasmModule";
import { type DepthwiseShape, depthwiseKernel } from "@/lib/hearing/learned/simd/depthwiseKernel";
import { networkKernels } from "@/lib/hearing/learned/simd/networkKernels";
import { Product } from "@/lib/hearing/learned/simd/Product";

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
