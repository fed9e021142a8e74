import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { wordsOf } from "@/lib/client/requests/request";
import type { CarriedOver } from "@/lib/client/song/carryOver";
import type { GuitarChoice } from "@/lib/client/song/guitarChoice";
import { setPartCopedent } from "@/lib/document/commands/head";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import type { Desk } from "./DeskContext";
import { numberKeyAt } from "./selection";

/** The acts by which the part gets another guitar; each is one step of undo. */
export function guitarActs(desk: Desk) {
  const { written, guitar, say } = desk;
  const { atHand, areSeveral } = desk.parts;
  const name = areSeveral ? desk.parts.nameOf() : "The part";
  function set(choice: GuitarChoice, laidAnew?: Parameters<typeof setPartCopedent>[2]): boolean {
    const { from, copedent } = choice;
    const chart = writeChart(copedent);
    const isSet =
      desk.now().opened.acts.run((ctx) => setPartCopedent(ctx, { from, chart }, laidAnew, atHand.id)) !==
      null;
    if (isSet) guitar.showOn(null);
    return isSet;
  }

  /** One long search at a time. */
  function isBusy(): boolean {
    if (!placeFinder().isLaying) return false;
    say("Places are being looked for already. Esc stops that.");
    return true;
  }

  return {
    /** The part is played on it from now on, and sounds as before wherever it can. */
    async carryOver(choice: GuitarChoice): Promise<void> {
      if (isBusy()) return;
      // What is not seen would stay as it is written, and sound otherwise.
      if (written.part.length < desk.whole.part.length) {
        say("Places of this part are covered for you, so it was not carried over. Uncover them first.");
        return;
      }
      const { part, head, changes } = written;
      const to = choice.copedent;
      const key = numberKeyAt(written, 0) ?? undefined;
      const asked = { part, from: head.copedent, to, key, changes };
      let carried: CarriedOver | null;
      try {
        carried = await guitar.follow(`Carrying ${events(part.length)} over to ${to.name}.`, (onProgress) =>
          placeFinder().carry(asked, onProgress),
        );
      } catch (thrown) {
        say(wordsOf(thrown));
        return;
      }
      if (carried === null) {
        say("Stopped. Nothing was written.");
        return;
      }
      if (!isUnchanged(desk.now().written.parts, atHand)) {
        say(
          "The part was changed while it was being carried over. Nothing was written; carry it over again.",
        );
        return;
      }
      if (!set(choice, carried.places)) return;
      const { byEffectCount, placedAnewCount, leftCount } = carried;
      say(
        [
          `${name} is on ${choice.copedent.name} now.`,
          byEffectCount > 0 ? `${events(byEffectCount)} as before.` : "",
          placedAnewCount > 0 ? `${events(placedAnewCount)} placed anew.` : "",
          leftCount > 0 ? `${events(leftCount)} left as written, and marked.` : "",
        ]
          .filter((words) => words !== "")
          .join(" "),
      );
    },
    /** Finds places on the guitar that the part is shown on for what cannot be played there, for this page alone. */
    async placeAnew(on: Copedent): Promise<void> {
      if (isBusy()) return;
      try {
        const found = await guitar.placeAnew();
        if (found === null) say("Stopped. Nothing was placed anew.");
        else if (found === 0) say(`None of them lies on ${on.name}.`);
        else
          say(
            `${found === 1 ? "1 has another place" : `${found} have another place`} on ${on.name}, for you alone. Carry the part over to write it.`,
          );
      } catch (thrown) {
        say(wordsOf(thrown));
      }
    },
    /** The part is played on it from now on; what is written stays, and means what it means there. */
    setOnly(choice: GuitarChoice): void {
      if (set(choice)) say(`${name} is on ${choice.copedent.name} now; what is written was not changed.`);
    },
  };
}

/** Whether the part is the one that was asked about, on the same guitar. */
function isUnchanged(parts: readonly SongPart[], then: SongPart): boolean {
  const now = parts.find(({ id }) => id === then.id);
  if (!now) return false;
  if (now.events === then.events && now.head === then.head) return true;
  const textOf = ({ events, head }: SongPart) => JSON.stringify([events, head.copedent]);
  return textOf(now) === textOf(then);
}

function events(count: number): string {
  return count === 1 ? "1 event" : `${count} events`;
}
