import type { Stage } from "@/lib/instrument/stages";
import type { PlaceFacts } from "./facts";
import type { CostTerm, TermName } from "./Place";

/** What a reason may speak of besides the place itself. */
export interface ReasonContext {
  /** Where the player comes from, if known. */
  before: PlaceFacts | null;
  /** The chord in force where the position carries it: in letters, and the changes under which it does. */
  chord: { letters: string; changes: readonly Stage[] } | null;
  terms: readonly CostTerm[];
}

/**
 * Says in plain words what to do for a place and what speaks for or against it, as in
 * `Bar stays at 3, press A and B. The whole C chord lies here.`
 */
export function reasonFor(facts: PlaceFacts, context: ReasonContext): string {
  const acts = [barWords(facts, context.before), ...changeWords(facts, context.before)];
  const sentences = [acts.join(", ")];
  if (context.chord !== null) sentences.push(chordWords(facts, context.chord));
  for (const [name, words] of REMARKS) {
    if (context.terms.some((term) => term.name === name)) sentences.push(words);
  }
  return sentences.map((sentence) => `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`).join(" ");
}

const REMARKS: readonly [TermName, string][] = [
  ["glide heard", "this is how the glide was heard"],
  ["split", "needs a string tuned to split between two changes"],
  ["open strings", "open strings: no vibrato and no slide"],
  ["high frets", "high on the neck, where frets are narrow"],
  ["far lever", "a long reach for foot and knee together"],
  ["foot move", "the foot changes pedals"],
  ["crossed strings", "the nearer string sounds higher than the further one"],
];

function barWords({ place: { fret } }: PlaceFacts, before: PlaceFacts | null): string {
  if (before === null) return fret === 0 ? "open strings" : `bar at fret ${fret}`;
  const from = before.place.fret;
  if (fret === from) return fret === 0 ? "strings stay open" : `bar stays at ${fret}`;
  if (fret === 0) return "lift the bar for open strings";
  if (from === 0) return `bar to fret ${fret}`;
  const distance = Math.abs(fret - from);
  return `bar ${fret > from ? "up" : "down"} ${countWords(distance)} ${distance === 1 ? "fret" : "frets"} to ${fret}`;
}

function changeWords(facts: PlaceFacts, before: PlaceFacts | null): string[] {
  const now = facts.held.stages;
  const then = before?.held.stages ?? [];
  const pressed = now.filter((stage) => !then.some((other) => other.id === stage.id));
  const kept = now.filter((stage) => !pressed.includes(stage));
  const released = then.filter((stage) => !now.some((other) => other.change === stage.change));
  const idle = released.filter((stage) => !disturbs(facts, stage));
  const letOff = released.filter((stage) => disturbs(facts, stage));
  if (now.length === 0 && released.length === 0) return [before === null ? "no pedals" : "nothing pressed"];
  if (now.length === 0 && idle.length === 0)
    return [letOff.some(isLever) ? "all pedals and levers off" : "pedals off"];
  return [
    ...phrase(letOff, "let off", "off"),
    ...phrase(kept, "keep", "stays on"),
    ...phrase(pressed, "press", "on"),
    ...(idle.length > 0 ? [`${joinWords(idle.map(({ id }) => id))} may stay down`] : []),
  ];
}

function disturbs(facts: PlaceFacts, stage: Stage): boolean {
  return facts.place.strings.some((string) => (stage.pulls[string] ?? 0) !== 0);
}

/** `press A and B`, `F lever on`: a foot presses, a knee throws. */
function phrase(stages: readonly Stage[], footVerb: string, kneeWord: string): string[] {
  const pedals = stages.filter((stage) => !isLever(stage));
  const levers = stages.filter(isLever);
  return [
    ...(pedals.length > 0 ? [`${footVerb} ${joinWords(pedals.map(({ id }) => id))}`] : []),
    ...levers.map((stage) => `${stage.change.id} lever ${kneeWord}${stageWords(stage)}`),
  ];
}

function stageWords({ change, depth }: Stage): string {
  if (change.stages.length === 1) return "";
  return depth === change.stages.length ? " all the way" : " to its half stop";
}

function chordWords(facts: PlaceFacts, chord: NonNullable<ReasonContext["chord"]>): string {
  const more = chord.changes.filter((stage) => !facts.held.ids.includes(stage.id));
  const under =
    more.length > 0
      ? ` once ${joinWords(more.map(({ id }) => id))} ${more.length > 1 ? "are" : "is"} down`
      : "";
  return `the whole ${chord.letters} chord lies here${under}`;
}

function isLever({ change }: Stage): boolean {
  return change.slot.kind !== "pedal";
}

const COUNT_WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

function countWords(count: number): string {
  return COUNT_WORDS[count] ?? String(count);
}

function joinWords(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
