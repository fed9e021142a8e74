import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import type { WeightFile } from "@/lib/hearing/learned/loadWeights";

/** Where the weights of this installation lie: for each network `NAME.json`, its manifest, and `NAME.bin`. */
export const WEIGHTS_FOLDER = path.resolve(
  path.dirname(fileURLToPath(import.meta.url)),
  "../../hearing/learned/weights",
);

const manifestSchema = z.looseObject({
  formatVersion: z.number(),
  dtype: z.enum(["float16", "float32"]),
  byteLength: z.number().int().positive(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  qualities: z.array(z.string()).min(1).optional(),
  noteOutputs: z.array(z.string()).min(1),
  size: z.record(z.string(), z.unknown()),
  tensors: z.array(
    z.object({ name: z.string(), shape: z.array(z.number().int().positive()), byteOffset: z.number().int() }),
  ),
});

/** The weights are there but are not those that their manifest names, or that cannot be read. */
export class WeightsDamaged extends Error {
  constructor(folder: string, how: string, options?: ErrorOptions) {
    super(
      `The ear's weights in ${folder} are damaged: ${how}. Nothing was heard; install Liftbook anew to mend them.`,
      options,
    );
  }
}

/** @throws {WeightsDamaged} */
function readManifest(text: string, file: string, folder: string): z.infer<typeof manifestSchema> {
  try {
    return manifestSchema.parse(JSON.parse(text));
  } catch (cause) {
    throw new WeightsDamaged(folder, `${file} cannot be read`, { cause });
  }
}

/**
 * Reads the weights of a network.
 * @returns null where none are installed
 * @throws {WeightsDamaged}
 */
export async function readWeightFile(name: string, folder = WEIGHTS_FOLDER): Promise<WeightFile | null> {
  let text: string;
  let bytes: Buffer;
  try {
    text = await readFile(path.join(folder, `${name}.json`), "utf8");
    bytes = await readFile(path.join(folder, `${name}.bin`));
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw fault;
  }
  const manifest = readManifest(text, `${name}.json`, folder);
  const found = createHash("sha256").update(bytes).digest("hex");
  if (found !== manifest.sha256) {
    throw new WeightsDamaged(folder, `their checksum is ${found}, not ${manifest.sha256}`);
  }
  return { manifest, bytes };
}
