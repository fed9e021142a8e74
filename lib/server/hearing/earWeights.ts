import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";
import { readWeightFile, WEIGHTS_FOLDER } from "./weightFiles";

/**
 * The learned ear of this installation; null where none is installed, and records are then heard by the signal
 * alone.
 * @param folder holds `ear.json` and `ear.bin`
 * @throws where the weights are there but are not those that the manifest names
 */
export async function readLearnedEar(folder = WEIGHTS_FOLDER): Promise<LearnedEar | null> {
  const file = await readWeightFile("ear", folder);
  return file && loadLearnedEar(file.manifest, file.bytes);
}
