import type { FoundAct } from "@/app/parts/ActSearch";
import { actsOfRow } from "@/lib/client/acts/keyRow";
import { pressKey } from "@/lib/client/acts/pressKey";
import type { Desk } from "./DeskContext";
import { KEY_TABLE, type KeyGroup, type KeyPlace } from "./keyTable";

/** In which places of the key table one is now: by what is selected, and while beats are tapped. */
export function placesNow({ selection, taps }: Pick<Desk, "selection" | "taps">): KeyPlace[] {
  return [selection?.kind ?? "nothing", ...(taps.isOpen ? (["tapping"] as const) : [])];
}

/** What has to be done before a group's keys mean this; null where they do already. */
export function lackOf({ places, first }: KeyGroup, now: readonly KeyPlace[]): string | null {
  return !places || places.some((place) => now.includes(place)) ? null : (first ?? null);
}

/**
 * Every act of the table of keys, as the search finds them. Doing one presses its key, so that it does what the key does, and
 * nothing stands in two lists.
 */
export function deskActs(desk: Desk): FoundAct[] {
  const now = placesNow(desk);
  // What is for the selection comes before what can always be done.
  const isForIt = (group: KeyGroup) => group.places !== undefined && lackOf(group, now) === null;
  const groups = [...KEY_TABLE.filter(isForIt), ...KEY_TABLE.filter((group) => !isForIt(group))];
  return groups.flatMap((group) => {
    const lack = lackOf(group, now);
    return group.keys.flatMap(actsOfRow).map(({ name, label, press }) => ({
      id: `${group.name}: ${label} ${name}`,
      name,
      place: group.name,
      label,
      lack,
      run() {
        if (lack !== null) desk.now().say(`${lack} Then ${label}: ${name}.`);
        else if (press === null) desk.now().say(`For that, type ${label}: ${name}.`);
        else if (!pressKey(press)) desk.now().say(notTaken(desk.now(), group, label));
      },
    }));
  });
}

function notTaken({ mayWrite }: Desk, { first }: KeyGroup, label: string): string {
  if (!mayWrite) return `${label} does nothing here: you may look and listen, not write.`;
  return `${label} does nothing here just now.${first ? ` ${first}` : ""}`;
}
