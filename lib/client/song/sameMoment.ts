import type { Seconds } from "@/lib/units/quantities";

/** Two times closer than this are one moment of the song: neither comes before the other, and one stands on the other's edge. */
export const SAME_MOMENT_SEC: Seconds = 0.03;
