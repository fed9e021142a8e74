import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { type BankShifts, BINS, BINS_PER_SEMITONE, SEMITONES } from "../layout";
import type { InterleaveCall } from "../simd/networkKernels";
import type { RowProduct } from "../simd/Product";
import { type NetworkParts, trunkProduct } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TimeWindow } from "./TimeWindow";

/**
 * The first layer: the spectra, standardised, are laid over themselves at the distances of the harmonics, and a
 * convolution over 3 frames and 7 bins makes one place a semitone of every three bins.
 */
export class HarmonicInput {
  private readonly parts: NetworkParts;
  private readonly next: RowSink;
  private readonly scale: Float32Array;
  private readonly shift: Float32Array;
  private readonly banks: number;
  /** Bins that a spectrum is moved by at most, either way. */
  private readonly farthest: number;
  /** The spectra of a frame, standardised, with so many zeros before, between and after them. */
  private readonly padded: Address;
  private readonly interleave: InterleaveCall;
  private readonly channels: number;
  private readonly window: TimeWindow;
  /** One product for each frame of the convolution. */
  private readonly taps: RowProduct[];
  private readonly out: Address;
  private readonly margin: number;

  /** @param shifts bins by which each spectrum is moved to make its channels */
  constructor(parts: NetworkParts, shifts: BankShifts, next: RowSink) {
    const { memory, kernels, weights, mostRows } = parts;
    this.parts = parts;
    this.next = next;
    this.scale = weights.get("input.scale", 1).data;
    this.shift = weights.get("input.shift", 1).data;
    this.banks = shifts.length;
    const farthest = Math.max(...shifts.flat().map(Math.abs));
    this.farthest = farthest;
    this.padded = memory.take(this.banks * BINS + (this.banks + 1) * farthest);
    const starts = shifts.flatMap((moves, bank) =>
      moves.map((moved) => farthest + bank * (BINS + farthest) + moved),
    );
    this.interleave = kernels.interleave(starts);
    this.channels = starts.length;
    const { shape, data } = weights.get("stem.weight", 4);
    const [columns, channels, timeTaps, binTaps] = shape as [number, number, number, number];
    if (channels !== this.channels)
      throw new RangeError(`The first layer takes ${channels} spectra, not ${this.channels}.`);
    const bias = weights.get("stem.bias", 1).data;
    this.taps = Array.from({ length: timeTaps }, (_, time) => {
      return trunkProduct(
        parts,
        { terms: binTaps * channels, columns },
        (term, column) => {
          const [bin, channel] = [Math.floor(term / channels), term % channels];
          return data[((column * channels + channel) * timeTaps + time) * binTaps + bin]!;
        },
        time === 0 ? bias : null,
        ((SEMITONES - 1) * BINS_PER_SEMITONE + binTaps) * channels,
      );
    });
    this.margin = (binTaps - BINS_PER_SEMITONE) / 2;
    const rowFloats = (BINS + 2 * this.margin) * channels;
    this.window = new TimeWindow(memory, rowFloats, (timeTaps - 1) / 2, mostRows);
    this.out = memory.take(mostRows * SEMITONES * columns);
  }

  /** @param features rows of the spectra of a frame, one after another */
  push(features: Float32Array, rows: number): void {
    const { address, step } = this.window.incoming;
    for (let row = 0; row < rows; row++) {
      this.standardise(features, this.banks * BINS * row);
      this.interleave(this.padded, address + 4 * (row * step + this.margin * this.channels), BINS / 4);
    }
    this.window.advance(rows, (ready) => this.answer(ready));
  }

  finish(): void {
    this.window.finish((ready) => this.answer(ready));
    this.window.reset();
    this.next.finish();
  }

  private standardise(features: Float32Array, from: number): void {
    const { floats } = this.parts.memory;
    for (let bank = 0; bank < this.banks; bank++) {
      const scale = this.scale[bank]!;
      const shift = this.shift[bank]!;
      const to = this.padded / 4 + this.farthest + bank * (BINS + this.farthest);
      for (let k = 0; k < BINS; k++) floats[to + k] = scale * features[from + bank * BINS + k]! + shift;
    }
  }

  private answer(ready: number): void {
    const { first } = this.window;
    const { width } = this.taps[0]!;
    const last = this.taps.length - 1;
    for (let row = 0; row < ready; row++) {
      this.taps.forEach((product, time) => {
        product.run(
          {
            address: first.address + 4 * (row + time) * first.step,
            step: BINS_PER_SEMITONE * this.channels,
          },
          { address: this.out + 4 * row * SEMITONES * width, step: width },
          SEMITONES,
          { addToResult: time > 0, rectify: time === last },
        );
      });
    }
    this.next.push({ address: this.out, step: SEMITONES * width }, ready);
  }
}
