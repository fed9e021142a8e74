import type { Hertz, Seconds } from "@/lib/units/quantities";

/** The first beat of a bar is higher than the others (local choice: both stand out from a band, neither is shrill). */
const FIRST_HZ: Hertz = 1760;
const OTHER_HZ: Hertz = 1175;
const LENGTH_SEC: Seconds = 0.06;
const DECAY_SEC: Seconds = 0.012;
const RISE_SEC: Seconds = 0.0005;
const LEVEL = 0.5;

/** Sounds clicks at given frames: what begins in one portion goes on in the next. */
export class ClickSounder {
  private readonly first: Float32Array;
  private readonly other: Float32Array;
  private readonly sounding: { sound: Float32Array; at: number }[] = [];

  constructor(rateHz: Hertz) {
    this.first = click(FIRST_HZ, rateHz);
    this.other = click(OTHER_HZ, rateHz);
  }

  /** @param offset in how many frames from now, within the portion that is given out next */
  begin(isFirst: boolean, offset: number): void {
    this.sounding.push({ sound: isFirst ? this.first : this.other, at: -offset });
  }

  /** Adds the next portion. */
  addTo(into: Float32Array, count: number): void {
    for (const each of this.sounding) {
      const from = Math.max(0, -each.at);
      for (let index = from; index < count && each.at + index < each.sound.length; index += 1)
        into[index] = into[index]! + each.sound[each.at + index]!;
      each.at += count;
    }
    for (let index = this.sounding.length - 1; index >= 0; index -= 1)
      if (this.sounding[index]!.at >= this.sounding[index]!.sound.length) this.sounding.splice(index, 1);
  }
}

function click(frequencyHz: Hertz, rateHz: Hertz): Float32Array {
  return Float32Array.from({ length: Math.round(LENGTH_SEC * rateHz) }, (_, index) => {
    const sec = index / rateHz;
    const envelope = Math.min(1, sec / RISE_SEC) * Math.exp(-sec / DECAY_SEC);
    return LEVEL * envelope * Math.sin(2 * Math.PI * frequencyHz * sec);
  });
}
