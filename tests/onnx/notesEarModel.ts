import { NOTES_EAR_SHIFTS, SEMITONES } from "@/lib/hearing/learned/layout";
import type { NetworkWeights } from "@/lib/hearing/learned/NetworkWeights";
import { TrunkGraph } from "./TrunkGraph";

/**
 * The network of the notes ear, as {@link earModel} writes that of the ear: features (1, bank, frame, bin) in; raw note
 * maps (1, map, frame, semitone) out.
 */
export function notesEarModel(weights: NetworkWeights): Uint8Array {
  return new NotesEarGraph(weights).bytes();
}

class NotesEarGraph extends TrunkGraph {
  bytes(): Uint8Array {
    const { writer } = this;
    const trunk = this.trunk(this.input(NOTES_EAR_SHIFTS.length), NOTES_EAR_SHIFTS);
    const maps = this.point(this.relu(this.point(trunk, "note.mix")), "note.out");
    const count = this.weights.noteMaps.length;
    writer.output(maps, "notes", [1, count, "frames", SEMITONES]);
    return writer.finish();
  }
}
