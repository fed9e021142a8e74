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
const COST_PER_SEMITONE = 0.1;
/** A note must be heard to leave its pitch at least so surely. Set here. */
const LEAVING_FROM = 0.05;
/** What it counts that a note of the steel might leave its pitch unheard. Set here. */
const UNHEARD_LEAVING = 0.3;

/** Arrivals at one time that are shared out, and voices that each may come from: more are no hand's, and all ways are tried. */
const MOST_TOGETHER = 6;
const MOST_ORIGINS = 5;

/**
 * Follows notes from event to event. An arrival goes on with the note that is heard to leave a pitch nearby at that
 * time; arrivals at one time share the notes out among them so that all together fit best. Where no note is left, an
 * arrival goes on with a pick that was too faint to count by itself (a swell, a slide into the note), else it stands
 * as a note of its own.
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
  for (const group of atOneTime(events)) {
    const arrivals = group.filter((event) => event.kind === "arrival");
    const left = goOn(maps, voices, arrivals, leg);
    for (const arrival of left) {
      const origin = fromFaint(maps, voices, faint, arrival, leg);
      if (origin) goTo(origin, leg(arrival));
      else voices.push({ legs: [leg(arrival)], steel: arrival.confidence });
    }
    for (const event of group) {
      if (event.kind === "pick") voices.push({ legs: [leg(event)], steel: event.steel });
    }
  }
  return voices.sort((a, b) => a.legs[0]!.timeSec - b.legs[0]!.timeSec);
}

/** The events in order, arrivals that lie within so many frames of a first one together with it. */
function atOneTime(events: readonly NoteEvent[]): NoteEvent[][] {
  const groups: NoteEvent[][] = [];
  let arrivals: NoteEvent[] = [];
  for (const event of events) {
    if (event.kind === "pick") {
      groups.push([event]);
    } else if (arrivals.length > 0 && event.frame - arrivals[0]!.frame <= TRACE.togetherFrames) {
      arrivals.push(event);
    } else {
      arrivals = [event];
      groups.push(arrivals);
    }
  }
  return groups;
}

/** A voice that may go on with an arrival. */
interface Continuation {
  voice: Voice;
  /** Semitones that it would go, up or down. */
  interval: number;
  /** How well it goes on by itself, and how well beside another that goes by the same interval, as under one bar. */
  alone: number;
  alike: number;
}

/** Goes on with voices at the arrivals, each voice once; gives back the arrivals for which none is left. */
function goOn(
  maps: NoteMaps,
  voices: readonly Voice[],
  arrivals: readonly ArrivalEvent[],
  leg: (event: NoteEvent) => Leg,
): ArrivalEvent[] {
  const surest = [...arrivals].sort((a, b) => b.confidence - a.confidence).slice(0, MOST_TOGETHER);
  const options = surest.map((arrival) =>
    voices
      .filter((voice) => !isTaken(voices, lastLeg(voice)))
      .map((voice) => continuation(maps, voice, arrival))
      .filter(({ alike }) => alike > LEAVING_FROM)
      .sort((a, b) => b.alike - a.alike)
      .slice(0, MOST_ORIGINS),
  );
  const chosen = bestSharing(options);
  const arrived = new Set<ArrivalEvent>();
  surest.forEach((arrival, i) => {
    const found = chosen[i];
    if (!found) return;
    goTo(found.voice, leg(arrival));
    arrived.add(arrival);
  });
  return arrivals.filter((arrival) => !arrived.has(arrival));
}

/**
 * Shares voices out among arrivals, each voice once at most, so that the scores sum up highest: one voice must not take
 * what is near at the price of another that then goes without.
 * @param options for each arrival the voices that may go on with it
 * @returns for each arrival the one that does, or null
 */
function bestSharing(options: readonly (readonly Continuation[])[]): (Continuation | null)[] {
  let best: (Continuation | null)[] = options.map(() => null);
  let most = 0;
  const share = (chosen: readonly (Continuation | null)[]): void => {
    if (chosen.length < options.length) {
      share([...chosen, null]);
      for (const option of options[chosen.length]!) {
        if (!chosen.some((other) => other?.voice === option.voice)) share([...chosen, option]);
      }
      return;
    }
    const scores = chosen.flatMap((option) => (option ? [scoreAmong(option, chosen)] : []));
    const total = scores.every((score) => score > LEAVING_FROM)
      ? scores.reduce((sum, score) => sum + score, 0)
      : 0;
    if (total > most) [best, most] = [[...chosen], total];
  };
  share([]);
  return best;
}

function scoreAmong(option: Continuation, chosen: readonly (Continuation | null)[]): number {
  const isAlike = chosen.some((other) => other && other !== option && other.interval === option.interval);
  return isAlike ? option.alike : option.alone;
}

/** Whether a later note took over the semitone. */
function isTaken(voices: readonly Voice[], { semitone, frame }: Leg): boolean {
  return voices.some((voice) => {
    const last = lastLeg(voice);
    return last.semitone === semitone && last.frame > frame;
  });
}

/** Goes on to the next leg, which ends the one before. */
function goTo(voice: Voice, leg: Leg): void {
  const from = lastLeg(voice);
  from.endFrame = Math.min(from.endFrame, leg.frame);
  moveOn(voice, leg);
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

function continuation(maps: NoteMaps, voice: Voice, { frame, semitone }: ArrivalEvent): Continuation {
  const from = lastLeg(voice);
  const interval = semitone - from.semitone;
  const span = Math.abs(interval);
  const isOver = from.frame > frame - 2 || from.endFrame < frame - TRACE.leaveFrames;
  if (span === 0 || span > TRACE.glideReach || isOver) return { voice, interval, alone: 0, alike: 0 };
  const left = leaving(maps, frame, from.semitone, from.frame) * (0.7 + 0.3 * voice.steel);
  // The band may hold the pitch that the steel leaves, or the string may have faded before it moves.
  const unheard = UNHEARD_LEAVING * voice.steel;
  return {
    voice,
    interval,
    alone: Math.max(left, span <= TRACE.unheardReach ? unheard : 0) - COST_PER_SEMITONE * span,
    // However far the bar goes, it takes the strings along.
    alike: Math.max(left, unheard) - COST_PER_SEMITONE,
  };
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
    const score = leaving(maps, frame, pick.semitone, pick.frame) - COST_PER_SEMITONE * span;
    if (score >= bestScore) [best, bestScore] = [pick, score];
  }
  if (!best) return null;
  const voice = { legs: [leg(best)], steel: best.steel };
  voices.push(voice);
  return voice;
}
