import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Articulation } from "@/lib/notation/PartEvent";
import { movesBetween, soundingArticulation } from "./partTyping";

/**
 * How an event begins where it was laid anew: a string that did not sound before cannot sound on, and is picked; what
 * sounds on may come there another way than it was written; what is tied stays so where nothing moves.
 * @param before what last sounded on its strings, where that lies now
 */
export function laidArticulation(event: ShownPart, before: ShownPart | null): Articulation {
  const sounds = before !== null && event.strings.every((string) => before.strings.includes(string));
  if (!sounds || event.articulation === "pick") return "pick";
  const isStill = !movesBetween(before, event) && sorted(before.changes) === sorted(event.changes);
  return event.articulation === "tie" && isStill ? "tie" : soundingArticulation(before, event);
}

function sorted(changes: readonly string[]): string {
  return [...changes].sort().join();
}
