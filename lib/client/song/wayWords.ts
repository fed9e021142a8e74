import type { PartEventFields } from "@/lib/document/commands/part";
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
  const frets = events.map(({ fret }) => fret);
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
    moves: acts.filter(({ articulation, fret }, at) => {
      const before = acts[at - 1];
      return before !== undefined && articulation === "pick" && before.fret !== fret;
    }).length,
    changes: [...new Set(events.flatMap((event) => event.changes))].sort(),
  };
}

/** Where a way lies: "frets 3 to 8", "fret 5", "open strings". */
export function wayPlace({ lowestFret, highestFret }: WayTraits): string {
  if (highestFret === 0) return "open strings";
  return lowestFret === highestFret ? `fret ${lowestFret}` : `frets ${lowestFret} to ${highestFret}`;
}

/** What a way asks of bar and pedals, in a sentence or two. */
export function wayWords({ picks, slides, pulls, moves, changes }: WayTraits): string {
  const counts = [
    plural(picks, "pick"),
    slides > 0 ? plural(slides, "slide") : "",
    pulls > 0 ? plural(pulls, "pedal or lever move") : "",
  ];
  const bar = moves === 0 ? "; the bar stays between picks" : `; the bar moves ${times(moves)} between picks`;
  const use = changes.length === 0 ? "No pedals or levers." : `With ${changes.join(", ")}.`;
  return `${counts.filter((words) => words !== "").join(", ")}${picks > 1 ? bar : ""}. ${use}`;
}

/** What comes out of an event while it rings: "then A pressed", "then slid to 7", "then A let off". */
export function nextWords(before: Moved, now: Moved & Pick<PartEventFields, "articulation">): string {
  const pressed = now.changes.filter((id) => !before.changes.includes(id)).join("");
  const released = before.changes.filter((id) => !now.changes.includes(id)).join("");
  const feet = [pressed ? `${pressed} pressed` : "", released ? `${released} let off` : ""].filter(
    (words) => words !== "",
  );
  const bar = now.fret === before.fret ? [] : [`slid to ${now.fret}`];
  if (now.articulation === "pick") return "then picked anew";
  return `then ${[...bar, ...feet].join(", ")}`;
}

type Moved = Pick<PartEventFields, "fret" | "changes">;

function plural(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}

function times(count: number): string {
  return count === 1 ? "once" : count === 2 ? "twice" : `${count} times`;
}
