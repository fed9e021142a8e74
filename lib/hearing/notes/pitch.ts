import type { Cents, Midi } from "@/lib/units/quantities";
import { type NoteMaps, semitoneMidi } from "./NoteMaps";
import { TRACE } from "./parameters";

/** Weight of a frame in which the note is not heard to sound, so that there is always a mean. */
const LEAST_WEIGHT = 0.001;

/**
 * Pitch of a note about a semitone, in tune with the record: mean of the offset map, weighed by how surely the note
 * sounds, over up to about a second, so that a vibrato gives its centre (listeners hear the mean:
 * J. C. Brown and K. V. Vaughn, "Pitch center of stringed instrument vibrato tones", JASA 100, 1996).
 * @param endFrame the frame after the last that may count
 */
export function pitchOf(
  maps: NoteMaps,
  semitone: number,
  frame: number,
  endFrame: number,
  tuningCents: Cents,
): Midi {
  const end = Math.max(frame + 2, Math.min(endFrame, frame + TRACE.pitchFrames));
  let weights = 0;
  let sum = 0;
  for (let t = frame; t < end; t++) {
    const weight = maps.at("frame", t, semitone) + LEAST_WEIGHT;
    weights += weight;
    sum += weight * maps.at("offset", t, semitone);
  }
  return semitoneMidi(semitone) + sum / weights - tuningCents / 100;
}

/** The frame after the last in which a note sounds on: before `mostFrame`, and before a run of silent frames. */
export function soundsUntil(maps: NoteMaps, semitone: number, frame: number, mostFrame: number): number {
  let silent = 0;
  let t = frame + 1;
  while (t < Math.min(mostFrame, maps.endFrame) && silent < TRACE.silentFrames) {
    silent = maps.at("frame", t, semitone) < TRACE.soundsAbove ? silent + 1 : 0;
    t += 1;
  }
  return t - silent;
}
