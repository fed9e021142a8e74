import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import type { Midi } from "@/lib/units/quantities";
import { type CandidateOptions, candidatePlaces } from "./candidates";
import { agreementWithChord, areChordTones, chordMaskOf } from "./chordAgreement";
import { factsOf, type PlaceFacts } from "./facts";
import type { HeardEvent } from "./HeardEvent";
import { layOutNeck, type Neck } from "./neck";
import type { Place } from "./Place";
import { placeCost } from "./placeCost";
import type { Weights } from "./weights";

/** One way to play an event: a place for its notes, or for those of them that are not stopped. */
export interface EventState {
  facts: PlaceFacts<Place>;
  /** Which notes of the event sound: indices into its `notesMidi`, in the order of the place's strings. */
  sounding: readonly number[];
  /** Of being there, and of what is stopped. */
  cost: number;
}

/** Strings that sound at once at most: with more no search is worth its time, and no hand rings them. */
const SOUNDING_AT_ONCE = 5;

/** Finds the ways to play events, each set of notes worked out once. */
export class EventStates {
  private readonly neck: Neck;
  private readonly facts = new Map<string, PlaceFacts<Place>[]>();
  private readonly agreements = new Map<string, ReturnType<typeof agreementWithChord>>();

  constructor(
    copedent: Copedent,
    private readonly weights: Weights,
    private readonly options: CandidateOptions & { key?: Key | undefined },
  ) {
    this.neck = layOutNeck(copedent);
  }

  /** Every way to play an event, by what is stopped, then fret, then fewest changes; none where it cannot be played. */
  of(event: HeardEvent): EventState[] {
    const { notesMidi, soundsOn = [], place } = event;
    const all = notesMidi.map((_, note) => note);
    if (place) {
      const facts = factsOf<Place>(this.neck, { ...place, notesMidi });
      return [{ facts, sounding: all, cost: 0 }];
    }
    const picked = all.filter((note) => !soundsOn[note]);
    const gliding = all.filter((note) => soundsOn[note]?.glides);
    const ringing = all.filter((note) => soundsOn[note] && !soundsOn[note].glides);
    return choices(ringing).flatMap((kept) => {
      const sounding = [...picked, ...gliding, ...kept];
      if (sounding.length > SOUNDING_AT_ONCE) return [];
      const stopped = ringing.filter((note) => !kept.includes(note));
      const stopping = stopped.reduce((sum, note) => sum + this.costOfStopping(event, note), 0);
      const midis = sounding.map((note) => notesMidi[note]!);
      return this.factsFor(midis, picked.length).map((facts) => ({
        facts,
        sounding,
        cost: stopping + this.costOf(facts, event),
      }));
    });
  }

  private costOfStopping({ soundsOn }: HeardEvent, note: number): number {
    const { stoppedPerSec, stoppedMostSec } = this.weights;
    return stoppedPerSec * Math.min(soundsOn?.[note]?.forSec ?? 0, stoppedMostSec);
  }

  private factsFor(notesMidi: readonly Midi[], pickedCount: number): PlaceFacts<Place>[] {
    const key = `${pickedCount} ${notesMidi.join()}`;
    const known = this.facts.get(key);
    if (known !== undefined) return known;
    const places = candidatePlaces(this.neck, notesMidi, { ...this.options, pickedCount });
    const facts = places.map((place) => factsOf(this.neck, place, place.strings.slice(0, pickedCount)));
    this.facts.set(key, facts);
    return facts;
  }

  private costOf(facts: PlaceFacts<Place>, { chordLabel, startSec, endSec }: HeardEvent): number {
    const agreement = chordLabel === undefined ? null : this.agreement(facts, chordLabel);
    return placeCost(facts, { key: this.options.key, lengthSec: endSec - startSec, agreement }, this.weights);
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

/** Every choice of some, all or none of a list; all first, none last. */
function choices(list: readonly number[]): number[][] {
  const count = 2 ** list.length;
  return Array.from({ length: count }, (_, nth) => list.filter((_, at) => ((count - 1 - nth) >> at) & 1));
}
