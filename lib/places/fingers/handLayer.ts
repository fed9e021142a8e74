import type { Copedent } from "@/lib/instrument/Copedent";
import type { HeardEvent } from "../HeardEvent";
import type { WayHere } from "../layersInTime";
import type { Place } from "../Place";
import type { PartLocks } from "../PlaceLocks";
import { soundingChoices } from "../soundingChoices";
import type { Weights } from "../weights";
import { type Fingering, fingeringOf } from "./Fingering";
import { findFingerings } from "./fingerCandidates";
import { type HandState, handTerms } from "./fingerCost";
import { fingerLocksOf, whyNoFingering } from "./fingerLocks";
import type { FingerWeights } from "./fingerWeights";
import { scaleMm } from "./fretGeometry";

/** The ways to play one event: each candidate, and each with the hand in every position that it can be played from. */
export interface HandLayer {
  event: HeardEvent;
  candidates: readonly HandCandidate[];
  states: readonly (HandState & { candidate: number })[];
  /** Cost of each state: of holding it, and of what is stopped. */
  own: Float64Array;
}

export interface HandCandidate {
  fingering: Fingering;
  /** Which notes of the event sound: indices into its `notesMidi`, in the order of the place's strings. */
  sounding: readonly number[];
  /** Cost of what is stopped. */
  stopping: number;
}

/** A layer with what is known of the way to it from the one before. */
export interface HandLayerInPart extends HandLayer, WayHere {}

/** Lays out the ways to play events, each set of notes worked out once. */
export class HandLayers {
  private readonly known = new Map<string, Fingering[]>();
  private readonly costs = new Map<Fingering, readonly number[]>();
  readonly scale: number;

  constructor(
    private readonly copedent: Copedent,
    private readonly weights: FingerWeights,
    private readonly stopping: Weights,
    private readonly options: { maxFret?: number | undefined; locks?: PartLocks | undefined },
  ) {
    this.scale = scaleMm(copedent);
  }

  of(event: HeardEvent): HandLayer {
    const { notesMidi, place } = event;
    if (place) {
      const fixed: Place = { ...place, notesMidi };
      const sounding = notesMidi.map((_, note) => note);
      const fingering = fingeringOf(this.copedent, fixed, notesMidi.length, {
        reachMm: Number.POSITIVE_INFINITY,
      });
      // What is settled is weighed too: the hand may hold it from one position or another.
      return this.layer(event, fingering === null ? [] : [{ fingering, sounding, stopping: 0 }]);
    }
    const locks = fingerLocksOf(this.copedent, this.options.locks, event.locks);
    const candidates = soundingChoices(event, this.stopping).flatMap(({ sounding, pickedCount, stopping }) =>
      this.fingerings(
        sounding.map((note) => notesMidi[note]!),
        pickedCount,
      )
        .filter((fingering) => locks.every((lock) => lock.keeps(fingering.place)))
        .map((fingering): HandCandidate => ({ fingering, sounding, stopping })),
    );
    return this.layer(event, candidates);
  }

  /** Why an event has no candidates, in words. */
  whyNone({ notesMidi, locks }: HeardEvent): string {
    const places = this.fingerings(notesMidi, notesMidi.length).map(({ place }) => place);
    const all = fingerLocksOf(this.copedent, this.options.locks, locks);
    return whyNoFingering(places, notesMidi.length, all);
  }

  private fingerings(notesMidi: readonly number[], pickedCount: number): Fingering[] {
    const key = `${pickedCount} ${notesMidi.join()}`;
    const { maxFret } = this.options;
    const known =
      this.known.get(key) ?? findFingerings(this.copedent, notesMidi, this.weights, { maxFret, pickedCount });
    this.known.set(key, known);
    return known;
  }

  private layer(event: HeardEvent, candidates: readonly HandCandidate[]): HandLayer {
    const states = candidates.flatMap(({ fingering }, candidate) =>
      fingering.positions.map((position) => ({ fingering, position, candidate })),
    );
    const own = Float64Array.from(
      candidates.flatMap(({ fingering, stopping }) => this.costsOf(fingering).map((cost) => cost + stopping)),
    );
    return { event, candidates, states, own };
  }

  /** What holding a fingering costs from each of its positions. */
  private costsOf(fingering: Fingering): readonly number[] {
    const known =
      this.costs.get(fingering) ??
      fingering.positions.map((position) =>
        handTerms({ fingering, position }, this.scale, this.weights).reduce((sum, { cost }) => sum + cost, 0),
      );
    this.costs.set(fingering, known);
    return known;
  }
}
