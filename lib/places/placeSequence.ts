import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { candidatePlaces } from "./candidates";
import { cheapestPath } from "./cheapestPath";
import { agreementWithChord, areChordTones, chordMaskOf } from "./chordAgreement";
import { factsOf, type PlaceFacts } from "./facts";
import { type Glide, type MoveMoment, moveCost } from "./moveCost";
import { layOutNeck, type Neck } from "./neck";
import type { Place } from "./Place";
import { placeCost } from "./placeCost";
import { USUAL_WEIGHTS, type Weights } from "./weights";

/** Notes heard together, to be given a place. */
export interface HeardEvent {
  startSec: Seconds;
  endSec: Seconds;
  notesMidi: readonly Midi[];
  /** Chord in force, Harte syntax. */
  chordLabel?: string;
  /** How these notes were heard to come out of those before. */
  glide?: Glide;
}

export interface PlaceSequenceOptions {
  key?: Key;
  weights?: Weights;
  maxFret?: number;
  /** 3 by default, 4 with the ring finger. */
  maxStrings?: number;
}

/** A place with what it costs the part. */
export interface CostedPlace extends Place {
  /** Cost of the cheapest way to play the whole part that uses this place for this event. */
  cost: number;
}

export interface PlacedEvent {
  startSec: Seconds;
  /** Index into `candidates`; null where the notes cannot be played. */
  chosenIndex: number | null;
  /** Every candidate, by fret, then fewest changes. */
  candidates: CostedPlace[];
}

export interface PlacedSequence {
  /** One for each event given, in the order given. */
  events: PlacedEvent[];
  /** Cost of the chosen path: of every chosen place and of every move between neighbours. */
  totalCost: number;
}

/**
 * Places a whole part: of all ways to play it the cheapest, exact. Costs are the sums of `placeCost` and
 * `moveCost`; an event that cannot be played is passed over, and the move goes from the event before it to the
 * one after. Events may come in any order; they are reckoned by start.
 * @throws HarteError on a chord label that cannot be read
 */
export function placeSequence(
  copedent: Copedent,
  events: readonly HeardEvent[],
  options: PlaceSequenceOptions = {},
): PlacedSequence {
  const weights = options.weights ?? USUAL_WEIGHTS;
  const reach = new Reach(layOutNeck(copedent), options);
  const playable = events
    .map((event, index) => ({ event, index, facts: reach.factsFor(event.notesMidi) }))
    .filter(({ facts }) => facts.length > 0)
    .sort((a, b) => a.event.startSec - b.event.startSec);
  const moments: MoveMoment[] = playable.map(({ event }, at) => ({
    timeSec: event.startSec - (playable[at - 1]?.event.startSec ?? event.startSec),
    glide: event.glide ?? null,
  }));
  const path = cheapestPath({
    states: playable.map(({ event, facts }) => facts.map((each) => reach.costOf(each, event, weights))),
    step: (layer, from, to) => {
      const before = playable[layer - 1]?.facts[from];
      const now = playable[layer]?.facts[to];
      const moment = moments[layer];
      if (before === undefined || now === undefined || moment === undefined) return 0;
      return moveCost(before, now, moment, weights);
    },
  });
  const placed: PlacedEvent[] = events.map(({ startSec }) => ({
    startSec,
    chosenIndex: null,
    candidates: [],
  }));
  playable.forEach(({ event, index, facts }, at) => {
    placed[index] = {
      startSec: event.startSec,
      chosenIndex: path.chosen[at] ?? null,
      candidates: facts.map(({ place }, state) => ({ ...place, cost: path.through[at]?.[state] ?? 0 })),
    };
  });
  return { events: placed, totalCost: path.total };
}

/** Candidates and their fit to chords, worked out once for each set of notes. */
class Reach {
  private readonly facts = new Map<string, PlaceFacts<Place>[]>();
  private readonly agreements = new Map<string, ReturnType<typeof agreementWithChord>>();

  constructor(
    private readonly neck: Neck,
    private readonly options: PlaceSequenceOptions,
  ) {}

  factsFor(notesMidi: readonly Midi[]): PlaceFacts<Place>[] {
    const key = notesMidi.join();
    const known = this.facts.get(key);
    if (known !== undefined) return known;
    const places = candidatePlaces(this.neck, notesMidi, this.options);
    const facts = places.map((place) => factsOf(this.neck, place));
    this.facts.set(key, facts);
    return facts;
  }

  costOf(facts: PlaceFacts<Place>, event: HeardEvent, weights: Weights): number {
    const agreement = event.chordLabel === undefined ? null : this.agreement(facts, event.chordLabel);
    const lengthSec = event.endSec - event.startSec;
    return placeCost(facts, { key: this.options.key, lengthSec, agreement }, weights);
  }

  private agreement(facts: PlaceFacts<Place>, label: string) {
    const mask = chordMaskOf(label);
    if (!areChordTones(mask, facts.place.notesMidi)) return null;
    const { fret, changes, strings } = facts.place;
    const key = `${mask} ${fret} ${changes.join()} ${strings.join()}`;
    const known = this.agreements.get(key) ?? agreementWithChord(this.neck, facts, mask);
    this.agreements.set(key, known);
    return known.agreement;
  }
}
