import type { NoteMap } from "./layout";
import { NetworkWeights, type Tensor } from "./NetworkWeights";
import type { NetworkSize, TensorShapes } from "./tensorShapes";

/** What stands beside a file of weights. Further fields name what the network was built with. */
export interface WeightsManifest {
  formatVersion: number;
  /** Numbers are little-endian IEEE 754, of 16 or of 32 bits. */
  dtype: "float16" | "float32";
  byteLength: number;
  /** Checksum of the file of weights, hexadecimal; checked by whoever reads the file. */
  sha256: string;
  /** The note maps that the weights hold: the first ones of those that the network may say. */
  noteOutputs: readonly string[];
  size: NetworkSize;
  /** Where the network hears chords: their qualities in the order of the classes of each root, in Harte's shorthands. */
  qualities?: readonly string[] | undefined;
  /** Row-major; extents are outermost first. */
  tensors: readonly { name: string; shape: readonly number[]; byteOffset: number }[];
  [further: string]: unknown;
}

/** The weights of a network, with what stands beside them. */
export interface WeightFile {
  manifest: WeightsManifest;
  bytes: Uint8Array;
}

/** A network that weights may belong to. */
export interface NetworkKind {
  /** Whose the weights are, in messages: "the ear". */
  owner: string;
  /** Fields of the manifest that must be just so. */
  layout: Readonly<Record<string, unknown>>;
  /** What its note head may say, by place. */
  noteMaps: readonly NoteMap[];
  /** The tensors that it is made from. */
  shapesOf(manifest: WeightsManifest): TensorShapes;
}

const FORMAT_VERSION = 1;

/** Name of the ear with these weights, by which results are told apart. */
export function versionOf(prefix: string, { sha256 }: Pick<WeightsManifest, "sha256">): string {
  return `${prefix}-${sha256.slice(0, 8)}`;
}

/**
 * The layers of a network from its file of weights.
 * @throws RangeError where the weights are not those of a network of this kind
 */
export function loadWeights(kind: NetworkKind, { manifest, bytes }: WeightFile): NetworkWeights {
  const { formatVersion, byteLength, dtype } = manifest;
  const { owner } = kind;
  if (formatVersion !== FORMAT_VERSION) {
    throw new RangeError(
      `The weights of ${owner} are of format ${formatVersion}, not ${FORMAT_VERSION}; install Liftbook anew to mend them.`,
    );
  }
  if (bytes.length !== byteLength) {
    throw new RangeError(
      `The weights of ${owner} are ${bytes.length} bytes long, not ${byteLength}; install Liftbook anew to mend them.`,
    );
  }
  for (const [name, wanted] of Object.entries(kind.layout)) {
    if (JSON.stringify(manifest[name]) === JSON.stringify(wanted)) continue;
    throw new RangeError(
      `The weights of ${owner} belong to another network: "${name}" is ${JSON.stringify(manifest[name])}, not ${JSON.stringify(wanted)}.`,
    );
  }
  const noteMaps = kind.noteMaps.slice(0, manifest.noteOutputs.length);
  if (noteMaps.join() !== manifest.noteOutputs.join()) {
    throw new RangeError(
      `The weights of ${owner} belong to another network: the note maps are "${manifest.noteOutputs.join(", ")}", not the first of "${kind.noteMaps.join(", ")}".`,
    );
  }
  checkShapes(owner, kind.shapesOf(manifest), manifest.tensors);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tensors = new Map<string, Tensor>();
  for (const { name, shape, byteOffset } of manifest.tensors) {
    const length = shape.reduce((product, extent) => product * extent, 1);
    const data = Float32Array.from({ length }, (_, i) =>
      dtype === "float16"
        ? halfToNumber(view.getUint16(byteOffset + 2 * i, true))
        : view.getFloat32(byteOffset + 4 * i, true),
    );
    tensors.set(name, { shape, data });
  }
  return new NetworkWeights(tensors, noteMaps);
}

function checkShapes(owner: string, wanted: TensorShapes, tensors: WeightsManifest["tensors"]): void {
  const found = new Map(tensors.map(({ name, shape }) => [name, shape.join(" by ")]));
  for (const [name, shape] of wanted) {
    if (found.get(name) === shape.join(" by ")) continue;
    throw new RangeError(
      `The weights of ${owner} belong to another network: "${name}" is ${found.get(name) ?? "missing"}, not ${shape.join(" by ")}.`,
    );
  }
}

/** A number from the bits of IEEE 754 binary16: 1 sign, 5 exponent, 10 fraction. */
export function halfToNumber(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 0x1f;
  const fraction = bits & 0x3ff;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  if (exponent === 31) return fraction === 0 ? sign * Number.POSITIVE_INFINITY : Number.NaN;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}
