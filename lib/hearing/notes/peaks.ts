import type { Seconds } from "@/lib/units/quantities";
import { frameSec } from "../learned/EarFeatures";
import { type NoteMap, SEMITONES } from "../learned/layout";
import type { NoteMaps } from "./NoteMaps";

/** A moment at which one of the note maps stands out in a semitone. */
export interface MapPeak {
  frame: number;
  semitone: number;
  /** Between frames, by the centroid. */
  timeSec: Seconds;
  height: number;
  /** Sum of the map over {@link MASS_REACH} frames each way: an uncertain time spreads a sure event. */
  mass: number;
}

/** The maps were trained on triangles about this wide each way. */
const MASS_REACH = 2;

/**
 * Local maxima over time, semitone by semitone (S. Boeck, F. Krebs, M. Schedl, "Evaluating the online capabilities of
 * onset detection methods", ISMIR 2012: a maximum of its surroundings above a threshold), at sub-frame times by the
 * centroid of the surrounding values. Of equal values the first counts.
 * @param reach frames each way of which a peak is the largest
 * @param above height that a peak must pass
 */
export function mapPeaks(maps: NoteMaps, map: NoteMap, reach: number, above: number): MapPeak[] {
  const peaks: MapPeak[] = [];
  for (let frame = maps.firstFrame; frame < maps.endFrame; frame++) {
    for (let semitone = 0; semitone < SEMITONES; semitone++) {
      const height = maps.at(map, frame, semitone);
      if (height <= above || !stands(maps, map, frame, semitone, reach)) continue;
      let mass = 0;
      let moment = 0;
      for (let d = -MASS_REACH; d <= MASS_REACH; d++) {
        const value = maps.at(map, frame + d, semitone);
        mass += value;
        moment += d * value;
      }
      peaks.push({ frame, semitone, timeSec: frameSec(frame + moment / mass), height, mass });
    }
  }
  return peaks;
}

function stands(maps: NoteMaps, map: NoteMap, frame: number, semitone: number, reach: number): boolean {
  const height = maps.at(map, frame, semitone);
  for (let d = 1; d <= reach; d++) {
    if (maps.at(map, frame - d, semitone) >= height || maps.at(map, frame + d, semitone) > height)
      return false;
  }
  return true;
}
