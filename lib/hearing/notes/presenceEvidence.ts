import { SEMITONES } from "../learned/layout";
import { type Evidence, mapLogOdds } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";

/** What speaks for a steel playing in the stretch at all. */
export type PresenceEvidence = Evidence<"steel" | "action">;

const FLOOR = 0.003;

/**
 * Means over the frames of the surest steel note (in log odds) and of the surest pick and glide of the steel (together,
 * in nats).
 */
export function presenceEvidence(maps: NoteMaps): PresenceEvidence {
  let steel = 0;
  let action = 0;
  const frames = Math.max(1, maps.endFrame - maps.firstFrame);
  for (let frame = maps.firstFrame; frame < maps.endFrame; frame++) {
    const surest = { steel: 0, steelOnset: 0, arrival: 0 };
    for (let semitone = 0; semitone < SEMITONES; semitone++) {
      surest.steel = Math.max(surest.steel, maps.at("steel", frame, semitone));
      surest.steelOnset = Math.max(surest.steelOnset, maps.at("steelOnset", frame, semitone));
      surest.arrival = Math.max(surest.arrival, maps.at("arrival", frame, semitone));
    }
    steel += surest.steel / frames;
    action += (surest.steelOnset + surest.arrival) / frames;
  }
  return { steel: mapLogOdds(steel), action: Math.log(FLOOR + action) };
}
