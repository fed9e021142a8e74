/** Numbers from 0 up to 1, the same for the same seed. mulberry32 by Tommy Ettinger, public domain. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Draws from what a seed gives. */
export class Dice {
  constructor(readonly next: () => number) {}
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }
  /** Seconds of a ten-second record, most of them on quarters. */
  timeSec(): number {
    return this.next() < 0.7 ? this.below(41) / 4 : this.next() * 10;
  }
}
