import type { RankedPlace } from "@/lib/places/RankedPlace";

/** Ease against the easiest place, 0 to 100: each two points of cost halve it. */
export function easeOf(place: Pick<RankedPlace, "cost">, easiest: Pick<RankedPlace, "cost">): number {
  return Math.round(100 * 2 ** (-(place.cost - easiest.cost) / 2));
}
