import type { PartEventFields } from "@/lib/document/commands/part";
import type { Copedent } from "@/lib/instrument/Copedent";
import { fretsOf, type HeldFrets } from "@/lib/instrument/frets";
import { type HeldEvent, movesBetween } from "./partTyping";
import type { PassageWay } from "./placePassage";

/** What one way through a passage is like, counted. */
export interface WayTraits {
  lowestFret: number;
  highestFret: number;
  picks: number;
  slides: number;
  /** Pedals or levers moved while strings ring, with the bar or without. */
  pulls: number;
  /** How often the bar goes to another fret between picks. */
  moves: number;
  /** Pedals and levers in use, as named, in no order that matters. */
  changes: string[];
}

export function wayTraits({ events }: PassageWay): WayTraits {
  const frets = events.flatMap(fretsOf);
  const times = [...new Set(events.map(({ startSec }) => startSec))];
  const firstAt = (startSec: number) => events.find((event) => event.startSec === startSec)!;
  const acts = times.map(firstAt);
  const count = (holds: (event: PartEventFields) => boolean) => acts.filter(holds).length;
  return {
    lowestFret: Math.min(...frets),
    highestFret: Math.max(...frets),
    picks: count(({ articulation }) => articulation === "pick"),
    slides: count(({ articulation }) => articulation === "slide"),
    pulls: count(({ articulation }) => ["press", "release", "slidePress"].includes(articulation)),
    moves: acts.filter((act, at) => {
      const before = acts[at - 1];
      return before !== undefined && act.articulation === "pick" && before.fret !== act.fret;
    }).length,
    changes: [...new Set(events.flatMap((event) => event.changes))].sort(),
  };
}

/** Where a way lies: "frets 3 to 8", "fret 5", "open strings". */
export function wayPlace({ lowestFret, highestFret }: WayTraits): string {
  if (highestFret === 0) return "open strings";
  return lowestFret === highestFret ? `fret ${lowestFret}` : `frets ${lowestFret} to ${highestFret}`;
}

/** What a way asks of bar or hand and of pedals, in a sentence or two. */
export function wayWords(
  { picks, slides, pulls, moves, changes }: WayTraits,
  stoppedBy: Copedent["stoppedBy"] = "bar",
): string {
  const counts = [
    plural(picks, "pick"),
    slides > 0 ? plural(slides, "slide") : "",
    pulls > 0 ? plural(pulls, "pedal or lever move") : "",
  ];
  const what = stoppedBy === "bar" ? "bar" : "hand";
  const moving = moves === 0 ? "stays" : `moves ${times(moves)}`;
  const bar = picks > 1 ? `; the ${what} ${moving} between picks` : "";
  const none = stoppedBy === "bar" ? " No pedals or levers." : "";
  const use = changes.length === 0 ? none : ` With ${changes.join(", ")}.`;
  return `${counts.filter((words) => words !== "").join(", ")}${bar}.${use}`;
}

/** What comes out of an event while it rings: "then A pressed", "then slid to 7", "then A let off". */
export function nextWords(before: HeldEvent, now: HeldEvent & Pick<PartEventFields, "articulation">): string {
  const pressed = now.changes.filter((id) => !before.changes.includes(id)).join("");
  const released = before.changes.filter((id) => !now.changes.includes(id)).join("");
  const feet = [pressed ? `${pressed} pressed` : "", released ? `${released} let off` : ""].filter(
    (words) => words !== "",
  );
  const bar = movesBetween(before, now) ? [`slid to ${fretWords(now)}`] : [];
  if (now.articulation === "pick") return "then picked anew";
  return `then ${[...bar, ...feet].join(", ") || "rings on"}`;
}

/** Where strings are held: `3`, or each string's own fret in the strings' order, `5·4`. */
export function fretWords({ fret, frets }: Omit<HeldFrets, "strings">): string {
  return frets ? frets.join("·") : String(fret);
}

function plural(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}

function times(count: number): string {
  return count === 1 ? "once" : count === 2 ? "twice" : `${count} times`;
}
