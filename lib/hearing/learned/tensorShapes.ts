import {
  type BankShifts,
  BEAT_DILATIONS,
  CHORD_BLOCKS,
  CONTEXT_DILATIONS,
  OCTAVES,
  SEMITONES,
  TRUNK_BLOCKS,
} from "./layout";

/** Widths that a network was built with, by the names in its manifest: `channels` and `expanded` of the trunk at least. */
export type NetworkSize = Readonly<Record<string, unknown>>;

/** Extents of a network's tensors by name, outermost first; all but `input` have a weight and a bias. */
export type TensorShapes = ReadonlyMap<string, readonly number[]>;

const TAPS = 5;
const CONTEXT_CHANNELS = 64;
const FLAT_CHANNELS = 4;
const CHORD_CHANNELS = 8;

/** A width of the size; NaN, which no extent equals, where there is none. */
function widthOf(size: NetworkSize, name: string): number {
  const width = size[name];
  return typeof width === "number" ? width : Number.NaN;
}

/** Layers by their weights' extents; each has a bias for each of its outputs. */
function withBiases(weights: Readonly<Record<string, readonly number[]>>): [string, readonly number[]][] {
  return Object.entries(weights).flatMap(([name, shape]): [string, readonly number[]][] => [
    [`${name}.weight`, shape],
    [`${name}.bias`, shape.slice(0, 1)],
  ]);
}

/**
 * The trunk and the note head.
 * @param shifts bins by which each spectrum is moved
 */
export function noteShapes(size: NetworkSize, shifts: BankShifts, maps: number): TensorShapes {
  const channels = widthOf(size, "channels");
  const expanded = widthOf(size, "expanded");
  const blocks = TRUNK_BLOCKS.flatMap((_, i): [string, readonly number[]][] => [
    [`block${i}.expand`, [expanded, channels]],
    [`block${i}.depth`, [expanded, TAPS, 3]],
    [`block${i}.project`, [channels, expanded]],
  ]);
  const context = CONTEXT_DILATIONS.map((_, i): [string, readonly number[]] => [
    `global.time${i}`,
    [CONTEXT_CHANNELS, CONTEXT_CHANNELS, TAPS],
  ]);
  return new Map([
    ["input.scale", [shifts.length]],
    ["input.shift", [shifts.length]],
    ...withBiases({
      stem: [channels, shifts.flat().length, 3, 7],
      ...Object.fromEntries(blocks),
      "global.in": [FLAT_CHANNELS, channels],
      "global.dense": [CONTEXT_CHANNELS, FLAT_CHANNELS * SEMITONES],
      ...Object.fromEntries(context),
      "global.out": [channels, CONTEXT_CHANNELS],
      "note.mix": [channels, channels],
      "note.out": [maps, channels],
    }),
  ]);
}

/** The heads of chords, bass and beats. */
export function changeShapes(size: NetworkSize, qualities: number): TensorShapes {
  const channels = widthOf(size, "channels");
  const chords = widthOf(size, "chord_channels");
  const beats = widthOf(size, "beat_channels");
  const blocks = CHORD_BLOCKS.flatMap(({ circular }, i): [string, readonly number[]][] => [
    [`chord.block${i}.time`, [chords, TAPS]],
    [`chord.block${i}.mix`, [chords, chords, circular ? 12 : 1]],
  ]);
  const times = BEAT_DILATIONS.map((_, i): [string, readonly number[]] => [
    `beat.time${i}`,
    [beats, beats, TAPS],
  ]);
  return new Map(
    withBiases({
      "chord.in": [CHORD_CHANNELS, channels],
      "chord.circle": [chords, CHORD_CHANNELS * OCTAVES, 12],
      ...Object.fromEntries(blocks),
      "chord.out": [qualities + 1, chords],
      "chord.none": [2, chords],
      "beat.in": [FLAT_CHANNELS, channels],
      "beat.dense": [beats, (FLAT_CHANNELS + 2) * SEMITONES],
      ...Object.fromEntries(times),
      "beat.out": [2, beats],
    }),
  );
}
