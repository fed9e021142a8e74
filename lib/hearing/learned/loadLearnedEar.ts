import { LearnedEar } from "./LearnedEar";
import { EAR_LAYOUT, EAR_NOTE_MAPS, EAR_SHIFTS } from "./layout";
import { loadWeights, type NetworkKind, versionOf, type WeightFile } from "./loadWeights";
import { changeShapes, noteShapes } from "./tensorShapes";

/** The ear's network: beats, chords, bass and notes of what the channels share. */
export const EAR: NetworkKind = {
  owner: "the ear",
  layout: EAR_LAYOUT,
  noteMaps: EAR_NOTE_MAPS,
  shapesOf: ({ size, noteOutputs, qualities = [] }) =>
    new Map([...noteShapes(size, EAR_SHIFTS, noteOutputs.length), ...changeShapes(size, qualities.length)]),
};

/**
 * The ear from its weights.
 * @throws RangeError where the weights are not those of a network that this code can run
 */
export function loadLearnedEar(file: WeightFile): LearnedEar {
  const { manifest } = file;
  return new LearnedEar(versionOf("ear", manifest), loadWeights(EAR, file), manifest.qualities ?? []);
}
