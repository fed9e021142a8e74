import { percentText } from "@/lib/client/format/format";
import type { ListedTake } from "@/lib/client/takes/takeStates";

/** Where a take is on its way to the server, in a few words. */
export function unsentWords({ fraction, fault }: NonNullable<ListedTake["unsent"]>): string {
  if (fault !== null) return "not taken by the server";
  return fraction === null ? "waits to be sent" : `being sent, ${percentText(fraction)}`;
}
