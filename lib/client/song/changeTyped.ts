import type { Change } from "@/lib/instrument/Copedent";

/**
 * Which pedal or lever is meant by the beginning of its name: the one so named, else the first in the chart's order that
 * begins so; a number that begins no name counts through the chart. Null where there is none.
 */
export function changeTyped<Named extends Pick<Change, "id">>(
  changes: readonly Named[],
  typed: string,
): Named | null {
  const begun = typed.toLowerCase();
  if (begun === "") return null;
  const named = changes.find(({ id }) => id.toLowerCase() === begun);
  const first = changes.find(({ id }) => id.toLowerCase().startsWith(begun));
  const counted = /^[1-9]\d?$/.test(begun) ? changes[Number(begun) - 1] : undefined;
  return named ?? first ?? counted ?? null;
}
