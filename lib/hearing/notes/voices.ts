import type { Cents, Midi, Seconds } from "@/lib/units/quantities";
import type { Certainty } from "../Hearing";
import { leaving } from "./arrivalEvidence";
import type { NoteMaps } from "./NoteMaps";
import type { ArrivalEvent, NoteEvent, PickEvent } from "./noteEvents";
import { TRACE } from "./parameters";
import { pitchOf, soundsUntil } from "./pitch";

/** A stretch of a note at one pitch: from its pick, or from the middle of a glide to it. */
export interface Leg {
  semitone: number;
  midi: Midi;
  frame: number;
  /** The frame after the last. */
  endFrame: number;
  timeSec: Seconds;
  /** How sure it is that the note gets there; of the first leg, that it is picked. */
  confidence: Certainty;
}

/** One note and the way its pitch takes. */
export interface Voice {
  /** At least one. */
  legs: Leg[];
  steel: Certainty;
}

export function lastLeg(voice: Voice): Leg {
  return voice.legs.at(-1)!;
}

/** A pitch that is farther off is left less readily. */
const COST_PER_SEMITONE = 0.02;
/** A note must be heard to leave its pitch at least so surely. Set here. */
const LEAVING_FROM = 0.15;

/**
 * Follows notes from event to event. An arrival goes on with the note that is heard to leave a pitch nearby at that
 * time; where none is, with a pick that was too faint to count by itself (a swell, a slide into the note), else it
 * stands as a note of its own.
 * @param events picks and arrivals that count, in order
 * @param faint picks that do not
 */
export function traceVoices(
  maps: NoteMaps,
  events: readonly NoteEvent[],
  faint: readonly PickEvent[],
  tuningCents: Cents,
): Voice[] {
  const voices: Voice[] = [];
  const leg = (event: NoteEvent) => legOf(maps, events, event, tuningCents);
  for (const event of events) {
    if (event.kind === "pick") {
      voices.push({ legs: [leg(event)], steel: event.steel });
      continue;
    }
    const origin = originOf(maps, voices, event) ?? fromFaint(maps, voices, faint, event, leg);
    if (origin) {
      lastLeg(origin).endFrame = Math.min(lastLeg(origin).endFrame, event.frame);
      moveOn(origin, leg(event));
    } else {
      voices.push({ legs: [leg(event)], steel: event.confidence });
    }
  }
  return voices.sort((a, b) => a.legs[0]!.timeSec - b.legs[0]!.timeSec);
}

/** Adds a leg; who glides is likelier the steel. */
export function moveOn(voice: Voice, leg: Leg): void {
  voice.legs.push(leg);
  voice.steel = 1 - (1 - voice.steel) * (1 - leg.confidence);
}

function legOf(maps: NoteMaps, events: readonly NoteEvent[], event: NoteEvent, tuningCents: Cents): Leg {
  const { semitone, frame, timeSec, confidence } = event;
  const next = events.find((other) => other.semitone === semitone && other.frame > frame);
  const endFrame = soundsUntil(maps, semitone, frame, next?.frame ?? maps.endFrame);
  const midi = pitchOf(maps, semitone, frame, endFrame, tuningCents);
  return { semitone, midi, frame, endFrame, timeSec, confidence };
}

function originOf(maps: NoteMaps, voices: readonly Voice[], { frame, semitone }: ArrivalEvent): Voice | null {
  let best: Voice | null = null;
  let bestScore = LEAVING_FROM;
  for (const voice of voices) {
    const from = lastLeg(voice);
    const span = Math.abs(from.semitone - semitone);
    if (span === 0 || span > TRACE.glideReach) continue;
    if (from.frame > frame - 2 || from.endFrame < frame - TRACE.leaveFrames) continue;
    const score = leaving(maps, frame, from.semitone) * (0.5 + 0.5 * voice.steel) - COST_PER_SEMITONE * span;
    if (score > bestScore) [best, bestScore] = [voice, score];
  }
  return best;
}

function fromFaint(
  maps: NoteMaps,
  voices: Voice[],
  faint: readonly PickEvent[],
  { frame, semitone }: ArrivalEvent,
  leg: (event: NoteEvent) => Leg,
): Voice | null {
  let best: PickEvent | null = null;
  let bestScore = LEAVING_FROM;
  for (const pick of faint) {
    const span = Math.abs(pick.semitone - semitone);
    if (span === 0 || span > TRACE.glideReach || pick.frame > frame - 2) continue;
    if (soundsUntil(maps, pick.semitone, pick.frame, frame) < frame - TRACE.leaveFrames) continue;
    const score = leaving(maps, frame, pick.semitone) - COST_PER_SEMITONE * span;
    if (score >= bestScore) [best, bestScore] = [pick, score];
  }
  if (!best) return null;
  const voice = { legs: [leg(best)], steel: best.steel };
  voices.push(voice);
  return voice;
}
