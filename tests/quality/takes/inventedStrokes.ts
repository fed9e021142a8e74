import type { TakeNote, TakeStroke } from "@/lib/fit/takes/TakeStroke";
import { seededNoise } from "@/lib/synth/seededNoise";

/** Whole and half steps of a major scale, as a steel plays it. */
const SCALE = [0, 2, 4, 5, 7, 9, 11];
/** Degrees apart of what is picked together: alone, thirds, sixths, a triad. */
const GRIPS: readonly (readonly number[])[] = [[0], [0], [0], [0, 2], [0, 2], [0, 5], [0, 5], [0, 2, 4]];
const BEATS = [0.5, 0.5, 0.5, 1, 1, 1.5, 2];

/** Evenly spread draws from a seed. */
export class Draws {
  private readonly noise;
  constructor(seed: number) {
    this.noise = seededNoise(seed * 7919 + 13);
    for (let i = 0; i < 8; i++) this.noise();
  }
  /** 0 to 1, 1 excluded. */
  next(): number {
    return (this.noise() + 1) / 2;
  }
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }
  /** Normally spread about 0 (Box & Muller 1958). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }
}

/** A made-up part for the steel: single notes, thirds, sixths and triads of a scale, some of them moved while they ring or ringing on. */
export function inventedStrokes(seed: number, count = 16): TakeStroke[] {
  const draws = new Draws(seed);
  const beatSec = 60 / (60 + draws.below(61));
  const tonic = 41 + draws.below(12);
  const midiOf = (degree: number) => tonic + 12 * Math.floor(degree / 7) + SCALE[((degree % 7) + 7) % 7]!;
  let degree = 6 + draws.below(6);
  let atSec = 0.6;
  const strokes: TakeStroke[] = [];
  for (let at = 0; at < count; at++) {
    const lengthSec = draws.of(BEATS) * beatSec;
    const endSec = atSec + lengthSec;
    const moves = lengthSec > 0.45 && draws.next() < 0.3;
    const by = draws.of([-1, 1]);
    const glideSec = atSec + lengthSec * (0.4 + 0.2 * draws.next());
    const rings = !moves && draws.next() < 0.2;
    const grip = draws.of(GRIPS);
    const movesAll = draws.next() < 0.5;
    const notes = grip.map((step, index): TakeNote => {
      const glides =
        moves && (movesAll || index === grip.length - 1)
          ? [
              {
                eventId: `g${at}`,
                toMidi: midiOf(degree + step + by),
                startSec: glideSec,
                endSec: glideSec + 0.13,
              },
            ]
          : [];
      return { midi: midiOf(degree + step), endSec: rings ? endSec + lengthSec / 2 : endSec - 0.01, glides };
    });
    strokes.push({ eventId: `s${at}`, startSec: atSec, notes });
    atSec = endSec;
    degree = Math.max(4, Math.min(13, degree + draws.of([-3, -2, -1, -1, 1, 1, 2, 3])));
  }
  // A string that is picked anew ends what it sounded.
  return strokes.map((stroke, at) => ({
    ...stroke,
    notes: stroke.notes.map((note) => {
      const again = strokes
        .slice(at + 1)
        .find((next) => next.notes.some(({ midi }) => Math.abs(midi - note.midi) <= 2));
      return { ...note, endSec: Math.min(note.endSec, again?.startSec ?? note.endSec) };
    }),
  }));
}
