import type { Copedent } from "@/lib/instrument/Copedent";
import { ChartFault } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import { COPEDENTS, findCopedent } from "@/lib/instrument/copedentCatalog";
import { RequestFault } from "./readRequest";

/**
 * The copedent of a request: one that is shipped, by its id, or a chart of its own.
 * @param doing what the command does with it, as in "place this"
 * @throws RequestFault on a name that none has, or a chart that is no instrument
 */
export function namedCopedent(named: string | Readonly<Record<string, unknown>>, doing: string): Copedent {
  if (typeof named === "string") {
    const copedent = findCopedent(named);
    if (copedent !== null) return copedent;
    const known = COPEDENTS.map(({ id }) => id).join(", ");
    throw new RequestFault(`No copedent is called "${named}"; known: ${known}.`);
  }
  try {
    return readChart(named);
  } catch (fault) {
    if (fault instanceof ChartFault) throw new RequestFault(`Cannot ${doing}: copedent: ${fault.message}`);
    throw fault;
  }
}
