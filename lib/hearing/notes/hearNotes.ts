import type { Signal } from "@/lib/dsp/Signal";
import type { Cents } from "@/lib/units/quantities";
import type { HeardNote } from "../Hearing";
import { frameSec } from "../learned/EarFeatures";
import { arrivalCandidates, pickCandidates } from "./candidates";
import { GlideLength } from "./GlideLength";
import { glideKinds } from "./glideKinds";
import { glidesTogether } from "./glidesTogether";
import { STEEL_FROM } from "./isSteel";
import { certainty } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";
import { acceptedEvents, type PickEvent, weighArrivals, weighPicks } from "./noteEvents";
import { NOTE_ODDS, type NoteOdds } from "./noteOdds";
import { PartialRise } from "./PartialRise";
import { ACCEPT, TRACE } from "./parameters";
import { steelPresence } from "./steelPresence";
import { lastLeg, traceVoices, type Voice } from "./voices";

/** What notes are heard from. */
export interface NoteHearing {
  /** The learned note maps of the passage, with some frames about it. */
  maps: NoteMaps;
  /** The record, at the ear's rate and level. */
  signal: Signal;
  /** How far the record stands from A4 = 440 Hz. */
  tuningCents: Cents;
}

/**
 * The notes that begin within the maps' stretch, in order: picks weighed by a few kinds of evidence, followed through
 * their glides, with what moved them and how likely they are the steel's. A note that steel and band strike
 * together is two.
 */
export function hearNotes(
  { maps, signal, tuningCents }: NoteHearing,
  odds: NoteOdds = NOTE_ODDS,
): HeardNote[] {
  const arrivals = weighArrivals(arrivalCandidates(maps, tuningCents), odds);
  const presence = steelPresence(maps, arrivals, odds);
  const picks = weighPicks(
    pickCandidates(maps, new PartialRise(signal, tuningCents), tuningCents),
    odds,
    presence,
  );
  const events = acceptedEvents(picks, arrivals);
  const faint = picks.filter(({ confidence }) => confidence < ACCEPT.pick);
  const voices = traceVoices(maps, events, faint, tuningCents);
  glidesTogether(maps, voices, tuningCents);
  const kinds = glideKinds(maps, voices);
  const length = new GlideLength(signal, tuningCents);
  return [...voices, ...struckWithSteel(voices, picks, odds)]
    .sort((a, b) => a.legs[0]!.timeSec - b.legs[0]!.timeSec)
    .map((voice) => toNote(voice, kinds, length));
}

/** The band's strokes on notes that the steel picks at the same time, as notes of their own without glides. */
function struckWithSteel(voices: readonly Voice[], picks: readonly PickEvent[], odds: NoteOdds): Voice[] {
  return voices.flatMap(({ legs: [first], steel }) => {
    const pick = picks.find(({ frame, semitone }) => frame === first!.frame && semitone === first!.semitone);
    if (!pick || steel < STEEL_FROM) return [];
    const confidence = certainty(odds.unison, pick.evidence);
    return confidence < ACCEPT.unison ? [] : [{ legs: [{ ...first!, confidence }], steel: 0 }];
  });
}

function toNote(voice: Voice, kinds: ReturnType<typeof glideKinds>, length: GlideLength): HeardNote {
  const [first, ...rest] = voice.legs;
  // What sounds from the record's first sample on is centred a little before it.
  const startSec = Math.max(0, first!.timeSec);
  return {
    startSec,
    endSec: Math.max(frameSec(lastLeg(voice).endFrame), startSec + TRACE.shortestSec),
    midi: first!.midi,
    confidence: first!.confidence,
    steel: voice.steel,
    glides: rest.map((leg, i) => ({
      kind: kinds.get(leg) ?? "unsure",
      toMidi: leg.midi,
      atSec: leg.timeSec,
      durationSec: length.of(voice.legs[i]!.midi, leg.midi, leg.timeSec),
    })),
  };
}
