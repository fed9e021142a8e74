import type { VerdictKind } from "@/lib/fit/fitVerdict";

/** The sign of each verdict in the lane and the list; the list says it in words beside. */
export const CHECK_SIGNS: Readonly<Record<VerdictKind, string>> = {
  fits: "✓",
  /** Written too low: up from here; and so on. */
  low: "↑",
  high: "↓",
  octave: "8",
  missing: "+",
  extra: "−",
  unclear: "?",
};
