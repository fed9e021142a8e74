import { carryOver } from "@/lib/client/song/carryOver";
import type { GuitarChoice } from "@/lib/client/song/guitarChoice";
import { setPartCopedent } from "@/lib/document/commands/head";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import type { Desk } from "./DeskContext";
import { keyAt } from "./selection";

/** The acts by which the part gets another guitar; each is one step of undo. */
export function guitarActs({ opened, written, guitar, say }: Desk) {
  function set(choice: GuitarChoice, laidAnew?: Parameters<typeof setPartCopedent>[2]): boolean {
    const { from, copedent } = choice;
    const chart = writeChart(copedent);
    const isSet = opened.acts.run((ctx) => setPartCopedent(ctx, { from, chart }, laidAnew)) !== null;
    if (isSet) guitar.showOn(null);
    return isSet;
  }

  return {
    /** The part is played on it from now on, and sounds as before wherever it can. */
    carryOver(choice: GuitarChoice): void {
      const carried = carryOver(written, choice.copedent, keyAt(written, 0));
      if (!set(choice, carried.places)) return;
      const { byEffectCount, placedAnewCount, leftCount } = carried;
      say(
        [
          `The part is on ${choice.copedent.name} now.`,
          byEffectCount > 0 ? `${events(byEffectCount)} as before.` : "",
          placedAnewCount > 0 ? `${events(placedAnewCount)} placed anew.` : "",
          leftCount > 0 ? `${events(leftCount)} left as written, and marked.` : "",
        ]
          .filter((words) => words !== "")
          .join(" "),
      );
    },
    /** The part is played on it from now on; what is written stays, and means what it means there. */
    setOnly(choice: GuitarChoice): void {
      if (set(choice)) say(`The part is on ${choice.copedent.name} now; what is written was not changed.`);
    },
  };
}

function events(count: number): string {
  return count === 1 ? "1 event" : `${count} events`;
}
