import type { Seconds } from "@/lib/units/quantities";
import type { HeardEvent } from "./HeardEvent";

/** What is known of the way to a playable event from the playable one before. */
export interface WayHere {
  /** From start to start; null for the first. */
  timeSec: Seconds | null;
  /** Whether the event before it in time is the layer before it: else nothing rings on into it. */
  isNext: boolean;
}

/**
 * The ways to play a part, event by event in order of time; events that cannot be played are left out.
 * @param layOut the ways to play one event
 * @returns each layer with the index of its event in `events`
 */
export function layersInTime<Layer extends { event: HeardEvent }>(
  events: readonly HeardEvent[],
  layOut: (event: HeardEvent) => Layer,
  isPlayable: (layer: Layer) => boolean,
): { index: number; layer: Layer & WayHere }[] {
  const playable = events
    .map((event, index) => ({ index, layer: layOut(event) }))
    .sort((a, b) => a.layer.event.startSec - b.layer.event.startSec)
    .map((each, order) => ({ ...each, order }))
    .filter(({ layer }) => isPlayable(layer));
  return playable.map(({ index, layer, order }, at) => {
    const before = playable[at - 1];
    const timeSec = before ? layer.event.startSec - before.layer.event.startSec : null;
    return {
      index,
      layer: { ...layer, timeSec, isNext: before !== undefined && before.order + 1 === order },
    };
  });
}
