import type { HeardEvent } from "./HeardEvent";
import { whyNone } from "./lockedCandidates";
import type { Lock } from "./locks";
import { locksOf } from "./locks";
import type { NoPlace } from "./NoPlace";
import type { Neck } from "./neck";
import type { NoteSet, NoteSets } from "./noteSets";
import type { PartLocks } from "./PlaceLocks";
import { type Spot, spotOf } from "./Spot";
import { soundingChoices } from "./soundingChoices";
import type { Weights } from "./weights";

/** The ways to play one event, as columns. */
export interface EventLayer {
  event: HeardEvent;
  spots: readonly Spot[];
  /** Which notes of the event sound: indices into its `notesMidi`, in the order of the spot's strings. */
  sounding: readonly (readonly number[])[];
  frets: Int32Array;
  sets: Int32Array;
  spans: Int32Array;
  /** Of being there, and of what is stopped. */
  own: Float64Array;
  /** Of what is stopped alone. */
  stopping: Float64Array;
}

/** Lays out the ways to play events. */
export class EventLayers {
  constructor(
    private readonly neck: Neck,
    private readonly noteSets: NoteSets,
    private readonly weights: Weights,
    private readonly partLocks: PartLocks,
  ) {}

  /** Every way to play an event, by what is stopped, then fret, then fewest changes; none where it cannot be played. */
  of(event: HeardEvent): EventLayer {
    const { notesMidi, place } = event;
    if (place) {
      // What is settled costs nothing by itself: it is the same on every way.
      const set = this.noteSets.at(notesMidi, [spotOf(this.neck, place)]);
      return layerOf(event, [
        { set, sounding: notesMidi.map((_, note) => note), stopping: 0, costs: new Float64Array(1) },
      ]);
    }
    const locks = this.locksOf(event);
    const parts = soundingChoices(event, this.weights).map(
      ({ sounding, pickedCount, stopping }): LayerPart => {
        const midis = sounding.map((note) => notesMidi[note]!);
        const set = this.noteSets.of(midis, pickedCount, locks);
        const costs = this.noteSets.costs(set, event.chordLabel, event.endSec - event.startSec);
        return { set, sounding, stopping, costs };
      },
    );
    return layerOf(event, parts);
  }

  /** Why an event has no places. */
  whyNone(event: HeardEvent): NoPlace {
    return whyNone(this.neck, event.notesMidi, this.locksOf(event), { slants: this.noteSets.slants });
  }

  private locksOf(event: HeardEvent): readonly Lock[] {
    return locksOf(this.neck, this.partLocks, event.locks);
  }
}

/** Ways that sound the same of an event's notes. */
interface LayerPart {
  set: NoteSet;
  sounding: readonly number[];
  stopping: number;
  costs: Float64Array;
}

function layerOf(event: HeardEvent, parts: readonly LayerPart[]): EventLayer {
  const [only] = parts;
  const count = parts.reduce((sum, { set }) => sum + set.spots.length, 0);
  if (only !== undefined && parts.length === 1 && only.stopping === 0) {
    const { spots, frets, sets, spans } = only.set;
    const sounding = new Array<readonly number[]>(count).fill(only.sounding);
    return { event, spots, frets, sets, spans, sounding, own: only.costs, stopping: new Float64Array(count) };
  }
  const stopping = Float64Array.from(parts.flatMap(({ set, stopping: cost }) => set.spots.map(() => cost)));
  return {
    event,
    spots: parts.flatMap(({ set }) => set.spots),
    sounding: parts.flatMap(({ set, sounding }) => set.spots.map(() => sounding)),
    frets: joined(parts.map(({ set }) => set.frets)),
    sets: joined(parts.map(({ set }) => set.sets)),
    spans: joined(parts.map(({ set }) => set.spans)),
    own: Float64Array.from(
      parts.flatMap(({ costs }) => [...costs]),
      (cost, at) => cost + stopping[at]!,
    ),
    stopping,
  };
}

function joined(columns: readonly Int32Array[]): Int32Array {
  return Int32Array.from(columns.flatMap((column) => [...column]));
}
