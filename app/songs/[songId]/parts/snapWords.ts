import type { Snap } from "@/lib/client/axis/snap";

/** What times snap to, in words. */
export const SNAP_WORDS: Readonly<Record<Snap, string>> = {
  beat: "beat",
  half: "½ beat",
  triplet: "⅓ beat",
  quarter: "¼ beat",
  off: "off",
};

const WHAT: Readonly<Record<Exclude<Snap, "off">, string>> = {
  beat: "beats",
  half: "half beats",
  triplet: "thirds of a beat",
  quarter: "quarters of a beat",
};

/** The same for a sentence. */
export function snapWhat(snap: Exclude<Snap, "off">): string {
  return WHAT[snap];
}
