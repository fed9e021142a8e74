import { NOTES_EAR_LAYOUT, NOTES_EAR_NOTE_MAPS, NOTES_EAR_SHIFTS } from "./layout";
import { loadWeights, type NetworkKind, versionOf, type WeightFile } from "./loadWeights";
import { NotesEar } from "./NotesEar";
import { noteShapes } from "./tensorShapes";

/** The network of the notes ear: notes alone, in stereo. */
export const NOTES_EAR: NetworkKind = {
  owner: "the notes ear",
  layout: NOTES_EAR_LAYOUT,
  noteMaps: NOTES_EAR_NOTE_MAPS,
  shapesOf: ({ size, noteOutputs }) => noteShapes(size, NOTES_EAR_SHIFTS, noteOutputs.length),
};

/**
 * The notes ear from its weights.
 * @throws RangeError where the weights are not those of a network that this code can run
 */
export function loadNotesEar(file: WeightFile): NotesEar {
  return new NotesEar(versionOf("notes-ear", file.manifest), loadWeights(NOTES_EAR, file), true);
}
