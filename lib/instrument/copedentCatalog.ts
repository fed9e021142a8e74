import type { Copedent } from "./Copedent";
import { E9 } from "./copedents/e9";

/** Every copedent that Liftbook ships, as data. */
export const COPEDENTS: readonly Copedent[] = [E9];

/** The shipped copedent with that id (as in `e9`), or null. */
export function findCopedent(id: string): Copedent | null {
  return COPEDENTS.find((copedent) => copedent.id === id) ?? null;
}
