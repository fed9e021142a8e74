import { equalityDeep } from "lib0/function";
import type { CopedentRow, CopedentShelf } from "@/lib/contracts/copedents";
import type { PartHead } from "@/lib/document/read/readHead";
import type { CopedentSource } from "@/lib/document/records/partHead";
import type { Copedent } from "@/lib/instrument/Copedent";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";

/** A copedent that was chosen for the part, and where it came from. */
export interface GuitarChoice {
  from: CopedentSource;
  copedent: Copedent;
}

/** What stands for a choice in a select: `preset e9`, `own ID`. */
export function choiceToValue({ kind, id }: CopedentSource): string {
  return `${kind} ${id}`;
}

/** The inverse; null where there is no such preset, nor copedent on the shelf. */
export function valueToChoice(value: string, shelf: CopedentShelf | null): GuitarChoice | null {
  const [kind, id = ""] = value.split(" ");
  if (kind === "preset") {
    const copedent = findCopedent(id);
    return copedent && { from: { kind, id }, copedent };
  }
  const row = [...(shelf?.own ?? []), ...(shelf?.shared ?? [])].find((each) => each.id === id);
  return row ? rowToChoice(row) : null;
}

/**
 * Whether the part is on it as it is charted now: the part keeps its own copy of the chart (rule D38), and the copedent
 * may have been changed since.
 */
export function isPartOn(
  { from, copedent }: Pick<PartHead, "from" | "copedent">,
  choice: GuitarChoice,
): boolean {
  if (choiceToValue(from) !== choiceToValue(choice.from)) return false;
  return equalityDeep(writeChart(copedent), writeChart(choice.copedent));
}

function rowToChoice({ id, ownerId, chart }: CopedentRow): GuitarChoice {
  return { from: { kind: "own", id, ownerId }, copedent: readChart(chart, id) };
}
