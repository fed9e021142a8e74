import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";

const FOLDER = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../../hearing/learned/weights");

const manifestSchema = z.looseObject({
  formatVersion: z.number(),
  dtype: z.enum(["float16", "float32"]),
  byteLength: z.number().int().positive(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  qualities: z.array(z.string()).min(1),
  noteOutputs: z.array(z.string()).min(1),
  tensors: z.array(
    z.object({ name: z.string(), shape: z.array(z.number().int().positive()), byteOffset: z.number().int() }),
  ),
});

/**
 * The learned ear of this installation; null where none is installed, and records are then heard by the signal
 * alone.
 * @param folder holds `ear.json` and `ear.bin`
 * @throws where the weights are there but are not those that the manifest names
 */
export async function readLearnedEar(folder = FOLDER): Promise<LearnedEar | null> {
  let text: string;
  let bytes: Buffer;
  try {
    text = await readFile(path.join(folder, "ear.json"), "utf8");
    bytes = await readFile(path.join(folder, "ear.bin"));
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw fault;
  }
  const manifest = manifestSchema.parse(JSON.parse(text));
  const found = createHash("sha256").update(bytes).digest("hex");
  if (found !== manifest.sha256) {
    throw new Error(
      `The ear's weights in ${folder} are damaged: their checksum is ${found}, not ${manifest.sha256}. Nothing was heard; install Liftbook anew to mend them.`,
    );
  }
  return loadLearnedEar(manifest, bytes);
}
