import { LearnedEar } from "./LearnedEar";
import { NOTE_MAPS, type NoteMap, TRAINED_LAYOUT } from "./layout";
import { NetworkWeights, type Tensor } from "./NetworkWeights";

/**
 * What stands beside the file of weights. Further fields name what the network was built with; those of
 * {@link TRAINED_LAYOUT} must be as they are there.
 */
export interface EarManifest {
  formatVersion: number;
  /** Numbers are little-endian IEEE 754, of 16 or of 32 bits. */
  dtype: "float16" | "float32";
  byteLength: number;
  /** Checksum of the file of weights, hexadecimal; checked by whoever reads the file. */
  sha256: string;
  /** Chord qualities in the order of the classes of each root, in the shorthands of Harte syntax. */
  qualities: readonly string[];
  /** The note maps that the weights hold: the first ones of {@link NOTE_MAPS}. */
  noteOutputs: readonly string[];
  /** Row-major; extents are outermost first. */
  tensors: readonly { name: string; shape: readonly number[]; byteOffset: number }[];
  [further: string]: unknown;
}

const FORMAT_VERSION = 1;

/**
 * An ear from its weights.
 * @param bytes the file of weights
 * @throws RangeError where the weights are not those of a network that this code can run
 */
export function loadLearnedEar(manifest: EarManifest, bytes: Uint8Array): LearnedEar {
  const version = `ear-${manifest.sha256.slice(0, 8)}`;
  return new LearnedEar(version, loadWeights(manifest, bytes), manifest.qualities);
}

/** The network's layers from the same; throws as {@link loadLearnedEar} does. */
export function loadWeights(manifest: EarManifest, bytes: Uint8Array): NetworkWeights {
  const { formatVersion, byteLength, dtype } = manifest;
  if (formatVersion !== FORMAT_VERSION) {
    throw new RangeError(
      `The ear's weights are of format ${formatVersion}, not ${FORMAT_VERSION}; install Liftbook anew to mend them.`,
    );
  }
  if (bytes.length !== byteLength) {
    throw new RangeError(
      `The ear's weights are ${bytes.length} bytes long, not ${byteLength}; install Liftbook anew to mend them.`,
    );
  }
  for (const [name, wanted] of Object.entries(TRAINED_LAYOUT)) {
    if (JSON.stringify(manifest[name]) === JSON.stringify(wanted)) continue;
    throw new RangeError(
      `The ear's weights belong to another network: "${name}" is ${JSON.stringify(manifest[name])}, not ${JSON.stringify(wanted)}.`,
    );
  }
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
  return new NetworkWeights(tensors, noteMapsOf(manifest, tensors));
}

function noteMapsOf({ noteOutputs }: EarManifest, tensors: ReadonlyMap<string, Tensor>): readonly NoteMap[] {
  const said = tensors.get("note.out.weight")?.shape[0];
  const maps = NOTE_MAPS.slice(0, said);
  if (said === maps.length && maps.join() === noteOutputs.join()) return maps;
  throw new RangeError(
    `The ear's weights belong to another network: ${said} note maps, "${noteOutputs.join(", ")}", not the first of "${NOTE_MAPS.join(", ")}".`,
  );
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
