import type { Copedent } from "./Copedent";
import { C6 } from "./copedents/c6";
import { E9, E9_CBA, E9_SMALL } from "./copedents/e9";
import { FRETTED } from "./copedents/fretted";
import { LAP_STEELS } from "./copedents/lapSteels";
import { OPEN_TUNINGS } from "./copedents/openTunings";
import { UNIVERSAL } from "./copedents/universal";

/** Every copedent that Liftbook ships, as data: pedal steels, then lap steels, then what fingers stop. Ids never change. */
export const COPEDENTS: readonly Copedent[] = [
  E9,
  E9_CBA,
  E9_SMALL,
  C6,
  UNIVERSAL,
  ...LAP_STEELS,
  ...OPEN_TUNINGS,
  ...FRETTED,
];

/** The shipped copedent with that id (as in `e9`), or null. */
export function findCopedent(id: string): Copedent | null {
  return COPEDENTS.find((copedent) => copedent.id === id) ?? null;
}
