import { printed } from "@/lib/client/format/format";
import type { Copedent } from "@/lib/instrument/Copedent";
import { openHome } from "@/lib/instrument/openHome";
import { C_MAJOR } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";

/** How large an instrument is, as in `10 strings, 3 pedals, 6 levers`. */
export function sizeWords({ strings, changes, stoppedBy }: Copedent): string {
  const pedals = changes.filter(({ slot }) => slot.kind === "pedal").length;
  const levers = changes.filter(({ slot }) => slot.kind === "knee").length;
  const others = changes.length - pedals - levers;
  return [
    count(strings.length, "string"),
    ...(pedals > 0 ? [count(pedals, "pedal")] : []),
    ...(levers > 0 ? [count(levers, "lever")] : []),
    ...(others > 0 ? [count(others, "lock or pull by hand", "locks and pulls by hand")] : []),
    ...(changes.length === 0 ? [stoppedBy === "bar" ? "played with a bar" : "fretted by fingers"] : []),
  ].join(", ");
}

/** What a copedent is called where there is little room: its name up to the first comma. */
export function shortName({ name }: Copedent): string {
  return name.split(",")[0]?.trim() || name;
}

/** The open notes, string 1 first, as printed: `F♯ D♯ G♯ E`. */
export function openNotes(copedent: Copedent): string {
  const home = openHome(copedent) ?? C_MAJOR;
  return copedent.strings
    .map(({ openMidi }) => printed(midiToName(openMidi, home).replace(/-?\d+$/, "")))
    .join(" ");
}

function count(number: number, thing: string, things = `${thing}s`): string {
  return `${number} ${number === 1 ? thing : things}`;
}
