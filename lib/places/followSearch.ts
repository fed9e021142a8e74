import type { LayeredCosts } from "./cheapestPath";
import type { HeardEvent } from "./HeardEvent";

/** The two halves of a search through layers, as they are without anybody who follows, or telling on the way. */
export interface FollowedSearch {
  /** One step for each event that is laid out. */
  layingOut<Layer>(layOut: (event: HeardEvent) => Layer): (event: HeardEvent) => Layer;
  /** One step for each layer, once on the way there and once on the way back. */
  stepping(fillSteps: LayeredCosts["fillSteps"]): LayeredCosts["fillSteps"];
}

/** A fiftieth of a search is worth telling. */
const TOLD_PARTS = 50;
/** Laid out once, gone through twice. */
const STEPS_PER_EVENT = 3;

/** @param onProgress told the share that is done, 0 to 1 and ascending */
export function followSearch(
  eventCount: number,
  onProgress: ((fraction: number) => void) | undefined,
): FollowedSearch {
  if (onProgress === undefined) return { layingOut: (layOut) => layOut, stepping: (fillSteps) => fillSteps };
  let done = 0;
  let told = 0;
  const step = (): void => {
    done += 1;
    const part = Math.floor((TOLD_PARTS * done) / (STEPS_PER_EVENT * eventCount));
    if (part <= told) return;
    told = part;
    onProgress(part / TOLD_PARTS);
  };
  return {
    layingOut: (layOut) => (event) => {
      step();
      return layOut(event);
    },
    stepping: (fillSteps) => (layer, to, row) => {
      if (to === 0) step();
      fillSteps(layer, to, row);
    },
  };
}
