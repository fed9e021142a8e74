import { type Evidence, mapLogOdds } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";
import type { MapPeak } from "./peaks";

/** What speaks for or against a peak of the arrival map being the end of a glide. */
export type ArrivalEvidence = Evidence<"arrivalOfSteel" | "sounding" | "leftBySteel" | "lowerArrival">;

/** Intervals that bar and pedals glide over. */
const ORIGINS = [1, 2, 3, 4, 5, 7, 12].flatMap((interval) => [-interval, interval]);
const FLOOR = 0.02;

/**
 * How surely a semitone sounds before the frame and no more after it, 0 to 1.
 * @param sinceFrame looks back no farther than here
 */
export function leaving(maps: NoteMaps, frame: number, semitone: number, sinceFrame = 0): number {
  const before = maps.mean(
    "frame",
    Math.max(sinceFrame, frame - 6),
    Math.max(sinceFrame, frame - 2),
    semitone,
  );
  return before * (1 - maps.mean("frame", frame + 3, frame + 6, semitone));
}

function leavingBySteel(maps: NoteMaps, frame: number, semitone: number): number {
  const before = Math.min(
    maps.mean("frame", frame - 6, frame - 2, semitone),
    maps.mean("steel", frame - 6, frame - 2, semitone),
  );
  return before * (1 - maps.mean("frame", frame + 3, frame + 6, semitone));
}

/** How surely the steel leaves a pitch from which it may glide to the semitone, 0 to 1. */
export function mostLeftBySteel(maps: NoteMaps, frame: number, semitone: number): number {
  return Math.max(...ORIGINS.map((interval) => leavingBySteel(maps, frame, semitone + interval)));
}

export function arrivalEvidence(maps: NoteMaps, peak: MapPeak): ArrivalEvidence {
  const { frame, semitone } = peak;
  return {
    arrivalOfSteel: Math.min(
      mapLogOdds(peak.height),
      mapLogOdds(maps.mean("steel", frame + 2, frame + 8, semitone)),
    ),
    sounding: mapLogOdds(maps.mean("frame", frame + 2, frame + 6, semitone)),
    leftBySteel: Math.log(FLOOR + mostLeftBySteel(maps, frame, semitone)),
    // Partials glide with the note that they belong to.
    lowerArrival: maps.most("arrival", frame - 3, frame + 3, semitone - 12),
  };
}
