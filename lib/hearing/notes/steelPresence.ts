import { SEMITONES } from "../learned/layout";
import { type Evidence, logOdds } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";

/** What speaks for a steel playing in the stretch at all. */
export type PresenceEvidence = Evidence<"steel" | "arrivals">;

const FLOOR = 0.001;

/** Mean over the frames of the surest steel note, in log odds, and of the surest arrival of a glide, in nats. */
export function presenceEvidence(maps: NoteMaps): PresenceEvidence {
  let steel = 0;
  let arrivals = 0;
  const frames = Math.max(1, maps.endFrame - maps.firstFrame);
  for (let frame = maps.firstFrame; frame < maps.endFrame; frame++) {
    let mostSteel = 0;
    let mostArrival = 0;
    for (let semitone = 0; semitone < SEMITONES; semitone++) {
      mostSteel = Math.max(mostSteel, maps.at("steel", frame, semitone));
      mostArrival = Math.max(mostArrival, maps.at("arrival", frame, semitone));
    }
    steel += mostSteel / frames;
    arrivals += mostArrival / frames;
  }
  return { steel: logOdds(steel), arrivals: Math.log(FLOOR + arrivals) };
}
