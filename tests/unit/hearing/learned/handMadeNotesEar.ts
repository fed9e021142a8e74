import { createHash } from "node:crypto";
import type { WeightFile } from "@/lib/hearing/learned/loadWeights";

/** Weights in the layout of lib/hearing/training/README.md, of numbers that look like chance. */
export interface HandMade extends WeightFile {
  tensors: ReadonlyMap<string, { shape: readonly number[]; data: Float32Array }>;
}

const MAPS = ["onset", "frame", "steel", "offset", "arrival", "melody", "steelOnset", "pedal"];

/** The notes ear's tensors and their extents, for a trunk of C channels, E where it is expanded. */
function shapesOf(c: number, e: number): [string, number[]][] {
  const layer = (name: string, shape: number[]): [string, number[]][] => [
    [`${name}.weight`, shape],
    [`${name}.bias`, [shape[0]!]],
  ];
  return [
    ["input.scale", [4]],
    ["input.shift", [4]],
    ...layer("stem", [c, 20, 3, 7]),
    ...[0, 1, 2, 3, 4, 5].flatMap((i) => [
      ...layer(`block${i}.expand`, [e, c]),
      ...layer(`block${i}.depth`, [e, 5, 3]),
      ...layer(`block${i}.project`, [c, e]),
    ]),
    ...layer("global.in", [4, c]),
    ...layer("global.dense", [64, 384]),
    ...[0, 1, 2].flatMap((i) => layer(`global.time${i}`, [64, 64, 5])),
    ...layer("global.out", [c, 64]),
    ...layer("note.mix", [c, c]),
    ...layer("note.out", [8, c]),
  ];
}

/** @param expanded channels of the widened trunk; like `channels` a multiple of 8 */
export function handMadeNotesEar(channels: number, expanded: number): HandMade {
  let state = 20_251;
  const chance = (): number => {
    state = (state * 16_807) % 2_147_483_647;
    return 2 * (state / 2_147_483_647) - 1;
  };
  const tensors = new Map<string, { shape: readonly number[]; data: Float32Array }>();
  const entries: { name: string; shape: readonly number[]; byteOffset: number }[] = [];
  let end = 0;
  for (const [name, shape] of shapesOf(channels, expanded)) {
    const length = shape.reduce((product, extent) => product * extent, 1);
    // As large as keeps what comes out about as large as what goes in.
    const size = name.endsWith(".weight") ? Math.sqrt((4 * shape[0]!) / length) : 0.3;
    const data = Float32Array.from({ length }, () => size * chance());
    if (name === "input.scale") data.fill(1.5);
    tensors.set(name, { shape, data });
    entries.push({ name, shape, byteOffset: end });
    end = 16 * Math.ceil((end + 4 * length) / 16);
  }
  const bytes = new Uint8Array(end);
  for (const { name, byteOffset } of entries) {
    const { data } = tensors.get(name)!;
    const view = new DataView(bytes.buffer, byteOffset);
    data.forEach((value, i) => {
      view.setFloat32(4 * i, value, true);
    });
  }
  const manifest = {
    file: "notes-ear.bin",
    byteLength: end,
    sha256: createHash("sha256").update(bytes).digest("hex"),
    dtype: "float32" as const,
    format: "notes-ear-weights",
    formatVersion: 1,
    sampleRate: 22_050,
    hop: 512,
    lowestMidi: 24,
    semitones: 96,
    bins: 288,
    banks: [
      { cycles: 40, fewest: 1024, most: 8192 },
      { cycles: 12, fewest: 512, most: 2048 },
    ],
    logGain: 10_000,
    longShifts: [-36, 0, 36, 57, 72, 84, 93, 101],
    shortShifts: [0, 36, 57, 72],
    blockDilations: [
      [1, 1],
      [2, 1],
      [1, 12],
      [4, 1],
      [8, 1],
      [1, 1],
    ],
    globalAfter: 3,
    globalDilations: [1, 4, 12],
    offsetReach: 0.6,
    sideShifts: [0, 36, 57, 72],
    balanceShifts: [0, 36, 57, 72],
    size: { name: "by hand", channels, expanded },
    noteOutputs: MAPS,
    tensors: entries,
  };
  return { manifest, bytes, tensors };
}
