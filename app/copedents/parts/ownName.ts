import { CHART_LIMITS } from "@/lib/instrument/chart/chartLimits";

/** The name of a copy of one's own, as long as a chart's name may be. */
export function ownName(of: string): string {
  const suffix = ", my own";
  return of.endsWith(suffix) ? of : of.slice(0, CHART_LIMITS.nameCharacters - suffix.length).trim() + suffix;
}
