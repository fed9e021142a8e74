import { FIRST_PART } from "../records/storage";
import { compareText } from "./rank";
import type { SaidPart } from "./readHead";
import type { ShownPart, SongPart } from "./SongSnapshot";

/**
 * The parts of a song: the first, and all that stand or have an event to show (rules D52 to D54).
 * @param unsaid gives what is said of a part that is not in `said`
 */
export function readParts(
  said: readonly SaidPart[],
  events: readonly ShownPart[],
  unsaid: (id: string) => SaidPart,
): SongPart[] {
  const byPart = new Map<string, ShownPart[]>();
  for (const event of events) {
    const own = byPart.get(event.part);
    if (own) own.push(event);
    else byPart.set(event.part, [event]);
  }
  const known = new Set(said.map(({ id }) => id));
  const others = [...byPart.keys()].filter((id) => !known.has(id)).map(unsaid);
  return [...said, ...others]
    .filter(({ id, isThere }) => isThere || byPart.has(id))
    .map(({ isThere: _, ...part }) => ({ ...part, events: byPart.get(part.id) ?? [] }))
    .sort(inOrder);
}

/** The first, then by when they were made, those of which that is not known last, then by id (rule D53). */
function inOrder(a: SongPart, b: SongPart): number {
  const rank = ({ id, madeAtMs }: SongPart) =>
    id === FIRST_PART ? Number.NEGATIVE_INFINITY : (madeAtMs ?? Number.POSITIVE_INFINITY);
  const [first, second] = [rank(a), rank(b)];
  return first === second ? compareText(a.id, b.id) : first - second;
}
