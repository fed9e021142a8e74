import { KernelWriter, type Local } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/** A complex number of each of the four interleaved sequences: four real parts, then four imaginary ones. */
export const ELEMENT_BYTES = 32;
const IM = 16;

/** A local for the real and one for the imaginary parts. */
interface Pair {
  re: Local;
  im: Local;
}

function pairs(writer: KernelWriter, count: number): Pair[] {
  return Array.from({ length: count }, () => ({ re: writer.vector(), im: writer.vector() }));
}

/** to = x w, complex; `spare` is written over. */
function turned(writer: KernelWriter, to: Pair, x: Pair, w: Pair, spare: Local): void {
  writer.multiplied(spare, x.im, w.im).get(x.re).get(w.re).multiply().get(spare).subtract();
  writer.get(x.re).get(w.im).multiply().get(x.im).get(w.re).multiply().add();
  writer.set(to.im).set(to.re);
}

/** Sums and differences of a transform of four numbers: out[c] = sum over j of x[j] (-i)^(j c). */
function fourPoints(writer: KernelWriter, out: Pair[], x: Pair[], spare: Pair[]): void {
  const [a, b, c, d] = x as [Pair, Pair, Pair, Pair];
  const [even, evenLess, odd, oddLess] = spare as [Pair, Pair, Pair, Pair];
  for (const part of ["re", "im"] as const) {
    writer.added(even[part], a[part], c[part]).subtracted(evenLess[part], a[part], c[part]);
    writer.added(odd[part], b[part], d[part]).subtracted(oddLess[part], b[part], d[part]);
  }
  const [first, second, third, fourth] = out as [Pair, Pair, Pair, Pair];
  for (const part of ["re", "im"] as const) {
    writer.added(first[part], even[part], odd[part]).subtracted(third[part], even[part], odd[part]);
  }
  writer.added(second.re, evenLess.re, oddLess.im).subtracted(second.im, evenLess.im, oddLess.re);
  writer.subtracted(fourth.re, evenLess.re, oddLess.im).added(fourth.im, evenLess.im, oddLess.re);
}

/**
 * Real samples times a window, read as complex numbers (even ones real, odd ones imaginary), laid as elements.
 * Parameters: samples, window, out, elements.
 */
export function layKernel(): KernelFunction {
  const writer = new KernelWriter("lay", 4);
  const [x, window, out, elements] = [0, 1, 2, 3] as const;
  const [low, high, re, im] = [writer.vector(), writer.vector(), writer.vector(), writer.vector()];
  writer.countDown(elements, () => {
    writer.load(x, 0).load(window, 0).multiply().set(low);
    writer.load(x, 16).load(window, 16).multiply().set(high);
    writer.picked(re, low, high, [0, 2, 4, 6]).picked(im, low, high, [1, 3, 5, 7]);
    writer.store(out, 0, re).store(out, IM, im);
    writer.step(x, 32).step(window, 32).step(out, ELEMENT_BYTES);
  });
  return writer.function();
}

/**
 * One pass of radix 4 over all elements. Parameters: from, to, twiddles (three complex numbers a group), groups,
 * elements in a group, bytes in a group.
 * @param elements of the whole transform
 */
export function pass4Kernel(elements: number): KernelFunction {
  const writer = new KernelWriter("pass4", 6);
  const [from, to, twiddles, groups, length, groupBytes] = [0, 1, 2, 3, 4, 5] as const;
  const x = pairs(writer, 4);
  const w = pairs(writer, 3);
  const spare = pairs(writer, 4);
  const spareVector = writer.vector();
  const outs = Array.from({ length: 4 }, () => writer.whole());
  const turns = writer.whole();
  const quarterBytes = (elements / 4) * ELEMENT_BYTES;
  writer.copy(outs[0]!, to);
  writer.countDown(groups, () => {
    w.forEach(({ re, im }, power) => {
      writer
        .loadSplat(twiddles, 8 * power)
        .set(re)
        .loadSplat(twiddles, 8 * power + 4)
        .set(im);
    });
    for (let j = 1; j < 4; j++) writer.sum(outs[j]!, outs[j - 1]!, groupBytes);
    writer.copy(turns, length);
    writer.countDown(turns, () => {
      x.forEach(({ re, im }, j) => {
        writer
          .load(from, quarterBytes * j)
          .set(re)
          .load(from, quarterBytes * j + IM)
          .set(im);
      });
      fourPoints(writer, x, x, spare);
      for (let j = 1; j < 4; j++) turned(writer, x[j]!, x[j]!, w[j - 1]!, spareVector);
      x.forEach(({ re, im }, j) => {
        writer.store(outs[j]!, 0, re).store(outs[j]!, IM, im).step(outs[j]!, ELEMENT_BYTES);
      });
      writer.step(from, ELEMENT_BYTES);
    });
    // The fourth has come to where the next group begins.
    writer.copy(outs[0]!, outs[3]!).step(twiddles, 24);
  });
  return writer.function();
}

/** The last pass where the number of elements is no power of four. Parameters: from, to, half the elements. */
export function pass2Kernel(elements: number): KernelFunction {
  const writer = new KernelWriter("pass2", 3);
  const [from, to, turns] = [0, 1, 2] as const;
  const [a, b, c] = [writer.vector(), writer.vector(), writer.vector()];
  const halfBytes = (elements / 2) * ELEMENT_BYTES;
  writer.countDown(turns, () => {
    for (const part of [0, IM]) {
      writer
        .load(from, part)
        .set(a)
        .load(from, halfBytes + part)
        .set(b);
      writer
        .added(c, a, b)
        .store(to, part, c)
        .subtracted(c, a, b)
        .store(to, halfBytes + part, c);
    }
    writer.step(from, ELEMENT_BYTES).step(to, ELEMENT_BYTES);
  });
  return writer.function();
}

/**
 * Joins the transforms of the four sequences to one of all numbers. Parameters: from, twiddles (vectors by block of
 * four elements: real and imaginary parts of the first three powers), out (real parts), blocks.
 * @param imBytes from the real to the imaginary parts of what is given out
 */
export function joinKernel(elements: number, imBytes: number): KernelFunction {
  const writer = new KernelWriter("join", 4);
  const [from, twiddles, out, blocks] = [0, 1, 2, 3] as const;
  const x = pairs(writer, 4);
  const spare = pairs(writer, 4);
  const w = pairs(writer, 1)[0]!;
  const spareVector = writer.vector();
  writer.countDown(blocks, () => {
    for (const part of ["re", "im"] as const) {
      const parts = x.map((pair) => pair[part]);
      parts.forEach((local, k) => {
        writer.load(from, ELEMENT_BYTES * k + (part === "re" ? 0 : IM)).set(local);
      });
      writer.transposed(
        parts,
        spare.map((pair) => pair[part]),
      );
    }
    for (let j = 1; j < 4; j++) {
      writer
        .load(twiddles, 32 * (j - 1))
        .set(w.re)
        .load(twiddles, 32 * (j - 1) + 16)
        .set(w.im);
      turned(writer, x[j]!, x[j]!, w, spareVector);
    }
    fourPoints(writer, x, x, spare);
    x.forEach(({ re, im }, c) => {
      writer.store(out, 4 * elements * c, re).store(out, 4 * elements * c + imBytes, im);
    });
    writer
      .step(from, 4 * ELEMENT_BYTES)
      .step(twiddles, 96)
      .step(out, 16);
  });
  return writer.function();
}

/**
 * Tells even from odd samples: the spectrum of real samples from that of half as many complex ones, whose first
 * number also stands behind its last. Parameters: low and high (first and last block of four real parts of the
 * complex spectrum; the high one ends at the number behind the last), the same two of the result, twiddles (real
 * and imaginary vectors by block), blocks.
 */
export function tellApartKernel(imBytes: number): KernelFunction {
  const writer = new KernelWriter("tellApart", 6);
  const [low, high, outLow, outHigh, twiddles, blocks] = [0, 1, 2, 3, 4, 5] as const;
  const [a, b, even, odd, w, turn] = pairs(writer, 6) as [Pair, Pair, Pair, Pair, Pair, Pair];
  const spare = writer.vector();
  const backwards = [3, 2, 1, 0] as const;
  writer.countDown(blocks, () => {
    writer.load(low, 0).set(a.re).load(low, imBytes).set(a.im);
    writer.load(high, 0).set(b.re).load(high, imBytes).set(b.im);
    writer.picked(b.re, b.re, b.re, backwards).picked(b.im, b.im, b.im, backwards);
    writer.load(twiddles, 0).set(w.re).load(twiddles, 16).set(w.im);
    writer.added(even.re, a.re, b.re).subtracted(even.im, a.im, b.im);
    writer.added(odd.re, a.im, b.im).subtracted(odd.im, b.re, a.re);
    turned(writer, turn, odd, w, spare);
    writer.added(a.re, even.re, turn.re).added(a.im, even.im, turn.im);
    writer.subtracted(b.re, even.re, turn.re).subtracted(b.im, turn.im, even.im);
    writer.picked(b.re, b.re, b.re, backwards).picked(b.im, b.im, b.im, backwards);
    writer.store(outLow, 0, a.re).store(outLow, imBytes, a.im);
    writer.store(outHigh, 0, b.re).store(outHigh, imBytes, b.im);
    writer.step(low, 16).step(high, -16).step(outLow, 16).step(outHigh, -16).step(twiddles, 32);
  });
  return writer.function();
}
