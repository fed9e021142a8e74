import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import type { LearnedEars } from "@/lib/hearing/learned/LearnedEars";
import { loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";
import { loadNotesEar } from "@/lib/hearing/learned/loadNotesEar";
import { readWeightFile, WEIGHTS_FOLDER } from "./weightFiles";

/**
 * The learned ear of this installation; null where none is installed, and records are then heard by the signal
 * alone.
 * @param folder holds `ear.json` and `ear.bin`
 * @throws where the weights are there but are not those that the manifest names
 */
export async function readLearnedEar(folder = WEIGHTS_FOLDER): Promise<LearnedEar | null> {
  const file = await readWeightFile("ear", folder);
  return file && loadLearnedEar(file);
}

/**
 * The same with the ear for notes: the notes ear, or where none is installed the ear itself.
 * @param folder holds also `notes-ear.json` and `notes-ear.bin`
 * @throws as {@link readLearnedEar} does
 */
export async function readLearnedEars(folder = WEIGHTS_FOLDER): Promise<LearnedEars> {
  const ear = await readLearnedEar(folder);
  const file = await readWeightFile("notes-ear", folder);
  return { ear, notesEar: file ? loadNotesEar(file) : (ear?.notesEar ?? null) };
}
