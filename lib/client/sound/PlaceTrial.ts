import type { PlayedEvent } from "@/lib/synth/playPart";
import { Watched } from "../watched/Watched";

/** A place that may be tried: what it would be in the part, and writing it there. */
export interface TrialPlace {
  /** The same for the same place. */
  key: string;
  /** Its name in words, as in "3·5 fret 10". */
  name: string;
  /** What it would be in the part: one event, or several where it glides on. */
  events(): readonly PlayedEvent[];
  /** Writes it into the part, in ink. @returns false where that was refused, for which the page has said why */
  write(): boolean;
}

/** What there is to be tried. */
export interface TrialOffer {
  /** What it is about: a trial of something else ends. */
  about: string;
  places: readonly TrialPlace[];
  /** Whether places are still being looked for. */
  isComing: boolean;
  /** Ids of what stands in the part now where the place would stand. */
  instead: readonly string[];
}

export interface TrialState {
  /** Whether there is anything to try. */
  isOffered: boolean;
  /** The place that is tried; null where none is. */
  tried: TrialPlace | null;
  /** As it would stand in the part, in place of those. */
  events: readonly PlayedEvent[];
  instead: readonly string[];
}

const NONE: TrialState = { isOffered: false, tried: null, events: [], instead: [] };

/** Trying places by ear: one after the other is played where it would stand, and none is written until it is wanted. */
export class PlaceTrial extends Watched<TrialState> {
  private offer: TrialOffer = { about: "", places: [], isComing: false, instead: [] };
  /** Told the place that was asked for, once it is there. */
  private asked: ((tried: TrialPlace | null) => void) | null = null;

  constructor() {
    super(NONE);
  }

  /** Says what may be tried, in place of what might be before; what is tried goes on where it is still among it. */
  offers(offer: TrialOffer): void {
    const isSame = offer.about === this.offer.about;
    this.offer = offer;
    const { tried } = this.now();
    const still = isSame ? offer.places.find(({ key }) => key === tried?.key) : undefined;
    const next = this.stateOf(still ?? null);
    // Offered anew with every drawing of the page: who listens is told only where something is new.
    if (asText(next) !== asText(this.now())) this.tell(next);
    if (!isSame) this.asked = null;
    if (this.asked && (offer.places.length > 0 || !offer.isComing)) this.next(this.asked);
  }

  /**
   * Tries the next place, round and round.
   * @param then told the place, or null where there is none: now, or where places are still looked for, when they are there
   */
  next(then: (tried: TrialPlace | null) => void = () => {}): void {
    const { places, isComing } = this.offer;
    this.asked = places.length === 0 && isComing ? then : null;
    if (this.asked) return;
    const at = places.findIndex(({ key }) => key === this.now().tried?.key);
    const tried = places[(at + 1) % places.length] ?? null;
    this.tell(this.stateOf(tried));
    then(tried);
  }

  /**
   * Writes the place that is tried, which ends the trial; where it is still looked for, as soon as it is there.
   * @param then told what was written
   * @returns whether there was one, or one was asked for
   */
  write(then: (written: TrialPlace) => void = () => {}): boolean {
    const { asked } = this;
    if (asked) {
      this.asked = (found) => {
        if (found) this.write(then);
        else asked(null);
      };
      return true;
    }
    const { tried } = this.now();
    if (!tried) return false;
    // As it is offered now: what it was offered with may have changed since.
    const place = this.offer.places.find(({ key }) => key === tried.key) ?? tried;
    this.tell(this.stateOf(null));
    if (place.write()) then(place);
    return true;
  }

  /** Ends the trial, with nothing written. @returns whether there was one */
  drop(): boolean {
    const was = this.now().tried !== null || this.asked !== null;
    this.asked = null;
    if (was) this.tell(this.stateOf(null));
    return was;
  }

  private stateOf(tried: TrialPlace | null): TrialState {
    const { places, instead } = this.offer;
    const isOffered = places.length > 0;
    return tried ? { isOffered, tried, events: tried.events(), instead } : { ...NONE, isOffered };
  }
}

function asText({ isOffered, tried, events, instead }: TrialState): string {
  return JSON.stringify([isOffered, tried?.key, events, instead]);
}

/** The part as it would be with the place that is tried. */
export function partWith<E extends PlayedEvent & { id: string }>(
  part: readonly E[],
  { tried, events, instead }: TrialState,
): readonly PlayedEvent[] {
  if (!tried) return part;
  return [...part.filter(({ id }) => !instead.includes(id)), ...events];
}
