import type { Cents, Midi } from "@/lib/units/quantities";
import { type ArrivalEvidence, arrivalEvidence } from "./arrivalEvidence";
import type { NoteMaps } from "./NoteMaps";
import type { PartialRise } from "./PartialRise";
import { CANDIDATES, TRACE } from "./parameters";
import { type MapPeak, mapPeaks } from "./peaks";
import { type PickEvidence, pickEvidence } from "./pickEvidence";
import { pitchOf, soundsUntil } from "./pitch";

/** A peak with the pitch it would have as a note. */
export interface Candidate<E> extends MapPeak {
  midi: Midi;
  evidence: E;
}

function candidates<E>(
  maps: NoteMaps,
  peaks: readonly MapPeak[],
  tuningCents: Cents,
  weigh: (peak: MapPeak, midi: Midi) => E,
): Candidate<E>[] {
  return peaks.map((peak) => {
    const { frame, semitone } = peak;
    const end = soundsUntil(maps, semitone, frame, frame + TRACE.pitchFrames);
    const midi = pitchOf(maps, semitone, frame, end, tuningCents);
    return { ...peak, midi, evidence: weigh(peak, midi) };
  });
}

/** Every peak of the onset map that might be a pick. */
export function pickCandidates(
  maps: NoteMaps,
  rise: PartialRise,
  tuningCents: Cents,
): Candidate<PickEvidence>[] {
  const peaks = mapPeaks(maps, "onset", CANDIDATES.onsetReach, CANDIDATES.onsetAbove);
  return candidates(maps, peaks, tuningCents, (peak, midi) => pickEvidence(maps, rise, peak, midi));
}

/** Every peak of the arrival map that might be the end of a glide. */
export function arrivalCandidates(maps: NoteMaps, tuningCents: Cents): Candidate<ArrivalEvidence>[] {
  const peaks = mapPeaks(maps, "arrival", CANDIDATES.arrivalReach, CANDIDATES.arrivalAbove);
  return candidates(maps, peaks, tuningCents, (peak) => arrivalEvidence(maps, peak));
}
