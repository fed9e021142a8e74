import type { Address } from "@/lib/dsp/simd/KernelMemory";
import { BANKS, BINS, BINS_PER_SEMITONE, LONG_SHIFTS, SEMITONES, SHORT_SHIFTS } from "../layout";
import { Product } from "../simd/Product";
import type { NetworkParts } from "./NetworkParts";
import type { RowSink } from "./RowSink";
import { TimeWindow } from "./TimeWindow";

const CHANNELS = LONG_SHIFTS.length + SHORT_SHIFTS.length;

/** Bins that a spectrum is moved by at most, either way. */
const FARTHEST = Math.max(...LONG_SHIFTS.map(Math.abs), ...SHORT_SHIFTS.map(Math.abs));
/** Where each channel's first bin stands in both spectra with so many zeros before, between and after them. */
const FROM = [
  ...LONG_SHIFTS.map((moved) => FARTHEST + moved),
  ...SHORT_SHIFTS.map((moved) => 2 * FARTHEST + BINS + moved),
];

/**
 * The first layer: both spectra, standardised, are laid over themselves at the distances of the harmonics, and a
 * convolution over 3 frames and 7 bins makes one place a semitone of every three bins.
 */
export class HarmonicInput {
  private readonly parts: NetworkParts;
  private readonly next: RowSink;
  private readonly scale: Float32Array;
  private readonly shift: Float32Array;
  /** Both spectra of a frame, standardised, with {@link FARTHEST} zeros about each. */
  private readonly padded = new Float32Array(BANKS * BINS + (BANKS + 1) * FARTHEST);
  private readonly window: TimeWindow;
  /** One product for each frame of the convolution. */
  private readonly taps: Product[];
  private readonly out: Address;
  private readonly margin: number;

  constructor(parts: NetworkParts, next: RowSink) {
    const { memory, kernels, weights, mostRows } = parts;
    this.parts = parts;
    this.next = next;
    this.scale = weights.get("input.scale", 1).data;
    this.shift = weights.get("input.shift", 1).data;
    const { shape, data } = weights.get("stem.weight", 4);
    const [columns, channels, timeTaps, binTaps] = shape as [number, number, number, number];
    if (channels !== CHANNELS)
      throw new RangeError(`The first layer takes ${channels} spectra, not ${CHANNELS}.`);
    const bias = weights.get("stem.bias", 1).data;
    this.taps = Array.from({ length: timeTaps }, (_, time) => {
      return new Product(
        memory,
        kernels,
        { terms: binTaps * channels, columns },
        (term, column) => {
          const [bin, channel] = [Math.floor(term / channels), term % channels];
          return data[((column * channels + channel) * timeTaps + time) * binTaps + bin]!;
        },
        time === 0 ? bias : null,
      );
    });
    this.margin = (binTaps - BINS_PER_SEMITONE) / 2;
    const rowFloats = (BINS + 2 * this.margin) * CHANNELS;
    this.window = new TimeWindow(memory, rowFloats, (timeTaps - 1) / 2, mostRows);
    this.out = memory.take(mostRows * SEMITONES * columns);
  }

  /** @param features rows of both spectra of a frame, the long bank's bins first */
  push(features: Float32Array, rows: number): void {
    const { floats } = this.parts.memory;
    const { address, step } = this.window.incoming;
    for (let row = 0; row < rows; row++) {
      this.standardise(features, 2 * BINS * row);
      const { padded } = this;
      let to = address / 4 + row * step + this.margin * CHANNELS;
      for (let k = 0; k < BINS; k++) {
        for (let channel = 0; channel < CHANNELS; channel++, to++) floats[to] = padded[FROM[channel]! + k]!;
      }
    }
    this.window.advance(rows, (ready) => this.answer(ready));
  }

  finish(): void {
    this.window.finish((ready) => this.answer(ready));
    this.window.reset();
    this.next.finish();
  }

  private standardise(features: Float32Array, from: number): void {
    for (let bank = 0; bank < BANKS; bank++) {
      const scale = this.scale[bank]!;
      const shift = this.shift[bank]!;
      const to = FARTHEST + bank * (BINS + FARTHEST);
      for (let k = 0; k < BINS; k++) this.padded[to + k] = scale * features[from + bank * BINS + k]! + shift;
    }
  }

  private answer(ready: number): void {
    const { first } = this.window;
    const { width } = this.taps[0]!;
    const last = this.taps.length - 1;
    for (let row = 0; row < ready; row++) {
      this.taps.forEach((product, time) => {
        product.run(
          { address: first.address + 4 * (row + time) * first.step, step: BINS_PER_SEMITONE * CHANNELS },
          { address: this.out + 4 * row * SEMITONES * width, step: width },
          SEMITONES,
          { addToResult: time > 0, rectify: time === last },
        );
      });
    }
    this.next.push({ address: this.out, step: SEMITONES * width }, ready);
  }
}
