import type { Copedent } from "@/lib/instrument/Copedent";
import { type Agreement, areChordTones, chordMaskOf } from "../chordAgreement";
import type { HeardEvent } from "../HeardEvent";
import type { WayHere } from "../layersInTime";
import type { NoPlace } from "../NoPlace";
import type { CostTerm, Place } from "../Place";
import type { PartLocks } from "../PlaceLocks";
import { soundingChoices } from "../soundingChoices";
import type { Weights } from "../weights";
import { chordUnderHand } from "./chordUnderHand";
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
  private readonly costs = new Map<Fingering, Map<number, readonly number[]>>();
  private readonly masks = new Map<string, number>();
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

  /** What holding a fingering costs under a chord, term by term. @throws HarteError on a label that cannot be read */
  terms(state: HandState, chordLabel: string | undefined): CostTerm[] {
    return handTerms(state, this.scale, this.weights, this.agreement(state, chordLabel));
  }

  /** How the hand lies for a chord; null where there is none, or the notes are not of it. */
  agreement(state: HandState, chordLabel: string | undefined): Agreement | null {
    const mask = this.maskOf(chordLabel);
    if (!areChordTones(mask, state.fingering.place.notesMidi)) return null;
    return chordUnderHand(this.copedent, state, mask, this.weights);
  }

  /** Why an event has no candidates. */
  whyNone({ notesMidi, locks }: HeardEvent): NoPlace {
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
      candidates.flatMap(({ fingering, stopping }) =>
        this.costsOf(fingering, event.chordLabel).map((cost) => cost + stopping),
      ),
    );
    return { event, candidates, states, own };
  }

  /** What holding a fingering costs from each of its positions. */
  private costsOf(fingering: Fingering, chordLabel: string | undefined): readonly number[] {
    const chordMask = this.maskOf(chordLabel);
    const byChord = this.costs.get(fingering) ?? new Map<number, readonly number[]>();
    this.costs.set(fingering, byChord);
    const known =
      byChord.get(chordMask) ??
      fingering.positions.map((position) =>
        this.terms({ fingering, position }, chordLabel).reduce((sum, { cost }) => sum + cost, 0),
      );
    byChord.set(chordMask, known);
    return known;
  }

  private maskOf(chordLabel: string | undefined): number {
    if (chordLabel === undefined) return 0;
    const known = this.masks.get(chordLabel) ?? chordMaskOf(chordLabel);
    this.masks.set(chordLabel, known);
    return known;
  }
}
