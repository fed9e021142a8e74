import { brokenGlides } from "./brokenGlides";
import type { EventLayer } from "./eventLayer";
import type { Glide } from "./glideActs";
import type { WayHere } from "./layersInTime";
import { glideHeard, hasteFactor, type MoveMoment } from "./moveCost";
import type { MoveTables } from "./moveTables";
import type { Weights } from "./weights";

/** A playable event's layer with what is known of the way to it from the playable one before. */
export interface LayerInPart extends EventLayer, WayHere {}

/** Whether and how a move can be made, links and all. */
export interface Link {
  /** Notes that were heard to glide and must be picked anew; infinite where a note that rings would change its string. */
  broken: number;
  /** What the move is then heard as. */
  moment: MoveMoment;
}

/** The notes that ring or glide from one state into another. */
export function linkOf(before: LayerInPart, from: number, now: LayerInPart, to: number): Link {
  const { soundsOn, glide = null } = now.event;
  const broken = brokenGlides(
    soundsOn,
    now.isNext ? { sounding: before.sounding[from]!, strings: before.spots[from]!.hold.strings } : null,
    { sounding: now.sounding[to]!, strings: now.spots[to]!.hold.strings },
  );
  return { broken, moment: { timeSec: now.timeSec, glide: broken === 0 ? glide : null } };
}

/** Writes the costs of every step into one state: what `moveCost` says, and what must be picked anew. */
export function stepFiller(layers: readonly LayerInPart[], tables: MoveTables, weights: Weights) {
  const mostFret = layers.reduce(
    (most, { frets }) => frets.reduce((top, fret) => Math.max(top, fret), most),
    0,
  );
  const hastes = layers.map(({ timeSec }) => ({
    still: hasteFactor({ timeSec, glide: null }, weights),
    oblique: hasteFactor({ timeSec, glide: "oblique" }, weights),
    parallel: hasteFactor({ timeSec, glide: "parallel" }, weights),
  }));

  return (at: number, to: number, row: Float64Array): void => {
    const before = layers[at - 1]!;
    const now = layers[at]!;
    const { frets, sets, spans } = before;
    const target = now.spots[to]!;
    const bar = tables.barTo(now.frets[to]!, mostFret);
    const hand = tables.handTo(now.spans[to]!);
    const still = tables.feet(target.hold, false);
    const haste = hastes[at]!;
    const { glide, soundsOn } = now.event;
    if (!glide && !soundsOn) {
      const factor = haste.still;
      for (let from = 0; from < frets.length; from += 1)
        row[from] = bar[frets[from]!]! * factor + still[sets[from]!]! + hand[spans[from]!]!;
      return;
    }
    const gliding = tables.feet(target.hold, true);
    for (let from = 0; from < frets.length; from += 1) {
      const { broken, moment } = linkOf(before, from, now, to);
      if (broken === Number.POSITIVE_INFINITY) {
        row[from] = broken;
        continue;
      }
      const heard: Glide | null = moment.glide;
      const feet = heard === null ? still : gliding;
      row[from] =
        bar[frets[from]!]! * haste[heard ?? "still"] +
        feet[sets[from]!]! +
        hand[spans[from]!]! +
        glideHeard(before.spots[from]!, target, heard, weights) +
        weights.brokenGlide * broken;
    }
  };
}
