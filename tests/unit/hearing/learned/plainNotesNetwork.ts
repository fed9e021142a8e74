import type { HandMade } from "./handMadeNotesEar";

const BINS = 288;
const SEMITONES = 96;
/** Bank and bins of each channel of the first layer. */
const HARMONICS = [
  [-36, 0, 36, 57, 72, 84, 93, 101].map((shift) => ({ bank: 0, shift })),
  ...[1, 2, 3].map((bank) => [0, 36, 57, 72].map((shift) => ({ bank, shift }))),
].flat();
const BLOCKS: [frames: number, semitones: number][] = [
  [1, 1],
  [2, 1],
  [1, 12],
  [4, 1],
  [8, 1],
  [1, 1],
];

/** Numbers by channel, frame and place. */
type Planes = number[][][];

/**
 * The notes ear's network by plain loops over whole records, after the layout in lib/hearing/training/README.md alone.
 * @param features rows of 4 times 288 numbers
 * @returns raw outputs by map, frame and semitone
 */
export function plainNotesNetwork({ tensors }: HandMade, features: Float32Array, frames: number): Planes {
  const get = (name: string) => tensors.get(name)!;
  const planes = (
    channels: number,
    places: number,
    at: (c: number, t: number, s: number) => number,
  ): Planes =>
    Array.from({ length: channels }, (_, c) =>
      Array.from({ length: frames }, (_, t) => Array.from({ length: places }, (_, s) => at(c, t, s))),
    );
  const relu = (x: Planes): Planes =>
    x.map((rows) => rows.map((row) => row.map((value) => Math.max(0, value))));
  const plus = (x: Planes, y: Planes): Planes =>
    planes(x.length, x[0]![0]!.length, (c, t, s) => x[c]![t]![s]! + y[c]![t]![s]!);
  /** The same layer at every frame and place. */
  const point = (x: Planes, name: string): Planes => {
    const { shape, data } = get(`${name}.weight`);
    const bias = get(`${name}.bias`).data;
    return planes(shape[0]!, x[0]![0]!.length, (o, t, s) =>
      x.reduce((sum, channel, i) => sum + data[o * shape[1]! + i]! * channel[t]![s]!, bias[o]!),
    );
  };

  const scale = get("input.scale").data;
  const shift = get("input.shift").data;
  const x = planes(4, BINS, (b, t, k) => scale[b]! * features[(4 * t + b) * BINS + k]! + shift[b]!);

  const stem = get("stem.weight");
  const stemBias = get("stem.bias").data;
  let h = relu(
    planes(stem.shape[0]!, SEMITONES, (o, t, s) => {
      let sum = stemBias[o]!;
      HARMONICS.forEach(({ bank, shift: moved }, i) => {
        for (let dt = 0; dt < 3; dt++) {
          for (let dk = 0; dk < 7; dk++) {
            const k = 3 * s - 2 + dk;
            // Outside of the spectrum stands 0, and outside of what a moved spectrum covers too.
            const value = k < 0 || k >= BINS ? 0 : (x[bank]![t + dt - 1]?.[k + moved] ?? 0);
            sum += stem.data[((o * HARMONICS.length + i) * 3 + dt) * 7 + dk]! * value;
          }
        }
      });
      return sum;
    }),
  );

  BLOCKS.forEach(([dt, ds], index) => {
    const expanded = relu(point(h, `block${index}.expand`));
    const { data } = get(`block${index}.depth.weight`);
    const bias = get(`block${index}.depth.bias`).data;
    const filtered = relu(
      planes(expanded.length, SEMITONES, (c, t, s) => {
        let sum = bias[c]!;
        for (let i = 0; i < 5; i++) {
          for (let j = 0; j < 3; j++) {
            sum += data[(c * 5 + i) * 3 + j]! * (expanded[c]![t + (i - 2) * dt]?.[s + (j - 1) * ds] ?? 0);
          }
        }
        return sum;
      }),
    );
    h = plus(h, point(filtered, `block${index}.project`));
    if (index === 2) h = plus(h, context(h));
  });

  /** What all semitones together add to each. */
  function context(trunk: Planes): Planes {
    const narrow = point(trunk, "global.in");
    const flat = planes(4 * SEMITONES, 1, (i, t) => narrow[Math.floor(i / SEMITONES)]![t]![i % SEMITONES]!);
    let g = relu(point(flat, "global.dense"));
    [1, 4, 12].forEach((dilation, index) => {
      const { shape, data } = get(`global.time${index}.weight`);
      const bias = get(`global.time${index}.bias`).data;
      const before = g;
      const filtered = planes(shape[0]!, 1, (o, t) => {
        let sum = bias[o]!;
        for (let i = 0; i < shape[1]!; i++) {
          for (let tap = 0; tap < 5; tap++) {
            sum += data[(o * shape[1]! + i) * 5 + tap]! * (before[i]![t + (tap - 2) * dilation]?.[0] ?? 0);
          }
        }
        return sum;
      });
      g = plus(g, relu(filtered));
    });
    const spread = point(g, "global.out");
    return planes(trunk.length, SEMITONES, (c, t) => spread[c]![t]![0]!);
  }

  return point(relu(point(relu(h), "note.mix")), "note.out");
}
