import { LearnedEar } from "./LearnedEar";
import { NetworkWeights, type Tensor } from "./NetworkWeights";

/** What stands beside the file of weights. */
export interface EarManifest {
  /** Name and number of the training run, told in what is heard. */
  version: string;
  /** Numbers are little-endian IEEE 754, of 16 or of 32 bits. */
  format: "float16" | "float32";
  /** Checksum of the file of weights, hexadecimal; checked by whoever reads the file. */
  sha256: string;
  /** In the order in which they lie in the file, without gaps; extents are outermost first. */
  tensors: readonly { name: string; shape: readonly number[] }[];
}

/**
 * An ear from its weights.
 * @param manifest what {@link EarManifest} says
 * @param bytes the file of weights
 * @throws RangeError where the file is not as long as the manifest says
 */
export function loadLearnedEar(manifest: EarManifest, bytes: Uint8Array): LearnedEar {
  const size = manifest.format === "float16" ? 2 : 4;
  const lengths = manifest.tensors.map(({ shape }) => shape.reduce((product, extent) => product * extent, 1));
  const wanted = size * lengths.reduce((sum, length) => sum + length, 0);
  if (bytes.length !== wanted) {
    throw new RangeError(
      `The ear's weights are ${bytes.length} bytes long, not ${wanted}; install Liftbook anew to mend them.`,
    );
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tensors = new Map<string, Tensor>();
  let at = 0;
  manifest.tensors.forEach(({ name, shape }, index) => {
    const data = new Float32Array(lengths[index]!);
    for (let i = 0; i < data.length; i++, at += size) {
      data[i] = size === 2 ? halfToNumber(view.getUint16(at, true)) : view.getFloat32(at, true);
    }
    tensors.set(name, { shape, data });
  });
  return new LearnedEar(manifest.version, new NetworkWeights(tensors));
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
