import type { Slot } from "@/lib/instrument/Copedent";
import type { Stage } from "@/lib/instrument/stages";
import { glideActOf } from "./glideActs";
import { joinWords } from "./joinWords";
import type { CostTerm, TermName } from "./Place";
import { fretAt, type Spot } from "./Spot";
import { slantWords } from "./slants/slantWords";

/** What a reason may speak of besides the place itself. */
export interface ReasonContext {
  /** Where the player comes from, if known. */
  before: Spot | null;
  /** Whether strings ring on from there, so that what hands and feet do is heard. */
  isRinging?: boolean;
  /** The chord in force where the position carries it: in letters, the changes under which it does, whether all of it. */
  chord: { letters: string; changes: readonly Stage[]; isWhole: boolean } | null;
  terms: readonly CostTerm[];
}

/**
 * Says in plain words what to do for a place and what speaks for or against it, as in
 * `Bar stays at 3, press A and B. The whole C chord lies here.`
 */
export function reasonFor(spot: Spot, context: ReasonContext): string {
  const { before, chord, terms } = context;
  const ringing = context.isRinging && before !== null ? before : null;
  const acts = [barWords(spot, before, ringing !== null), ...changeWords(spot, before, ringing)];
  const sentences = [acts.join(", ")];
  const kept = ringing === null ? [] : keptStrings(ringing, spot);
  if (kept.length > 0)
    sentences.push(
      `string${kept.length > 1 ? "s" : ""} ${joinWords(kept.map(String))} ${kept.length > 1 ? "keep their notes" : "keeps its note"} all the same`,
    );
  if (chord !== null) sentences.push(chordSentence(spot, chord));
  for (const [name, words] of REMARKS) {
    if (terms.some((term) => term.name === name && term.cost !== 0)) sentences.push(words);
  }
  return sentences.map((sentence) => `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`).join(" ");
}

const REMARKS: readonly [TermName, string][] = [
  ["glide heard", "this is how the glide was heard"],
  ["picked anew", "what was heard to glide is picked anew"],
  ["notes stopped", "what still rings is stopped for it"],
  ["split", "needs a string tuned to split between two changes"],
  ["open strings", "open strings: no vibrato and no slide"],
  ["high frets", "high on the neck, where frets are narrow"],
  ["far lever", "a long reach for foot and knee together"],
  ["foot move", "the foot changes pedals"],
  ["too many for a pick", "more strings than the hand has fingers for: roll or strum them"],
  ["grip shape", "no usual grip"],
  ["crossed strings", "the nearer string sounds higher than the further one"],
];

function barWords(spot: Spot, before: Spot | null, isRinging: boolean): string {
  const { fret } = spot;
  const slanted = slantWords(spot);
  if (slanted !== null) return slanted;
  if (before === null) return fret === 0 ? "open strings" : `bar at fret ${fret}`;
  const from = before.fret;
  if (fret === from) return fret === 0 ? "strings stay open" : `bar stays at ${fret}`;
  if (fret === 0) return "lift the bar for open strings";
  if (from === 0) return `bar to fret ${fret}`;
  const distance = Math.abs(fret - from);
  const way = `${fret > from ? "up" : "down"} ${countWords(distance)} ${distance === 1 ? "fret" : "frets"} to ${fret}`;
  return isRinging ? `slide ${way}` : `bar ${way}`;
}

/** Strings that ring on through a slide and come to the same note, since feet or knees make up for the bar. */
function keptStrings(before: Spot, spot: Spot): number[] {
  const { hold } = spot;
  if (before.fret === spot.fret && !before.slant && !spot.slant) return [];
  return hold.strings.filter((string, at) => {
    const there = before.hold.strings.indexOf(string);
    return (
      there >= 0 &&
      fretAt(before, there) + before.hold.offsets[there]! === fretAt(spot, at) + hold.offsets[at]!
    );
  });
}

function changeWords(spot: Spot, before: Spot | null, ringing: Spot | null): string[] {
  // On an instrument without pedals there is nothing to say of them.
  if (spot.hold.disturbs.length === 0) return [];
  const now = spot.hold.set.stages;
  const then = before?.hold.set.stages ?? [];
  const pressed = now.filter((stage) => !then.some((other) => other.id === stage.id));
  const kept = now.filter((stage) => !pressed.includes(stage));
  const released = then.filter((stage) => !now.some((other) => other.change === stage.change));
  const idle = released.filter((stage) => !disturbs(spot, stage));
  const letOff = released.filter((stage) => disturbs(spot, stage));
  if (now.length === 0 && released.length === 0) return [before === null ? "no pedals" : "nothing pressed"];
  const heard = ringing === null ? "" : whileWords(ringing, spot);
  if (now.length === 0 && idle.length === 0)
    return [`${letOff.every(isPedal) ? "pedals" : "all pedals and levers"} off${heard}`];
  return [
    ...phrase(letOff, "let off", "off", heard),
    ...phrase(kept, "keep", "stays on", ""),
    ...phrase(pressed, "press", "on", heard),
    ...(idle.length > 0 ? [`${joinWords(idle.map(({ id }) => id))} may stay down`] : []),
  ];
}

/** When feet and knees move that are heard. */
function whileWords(before: Spot, spot: Spot): string {
  const act = glideActOf(before, spot);
  if (act === null || act === "stay" || act === "slide") return "";
  return act.startsWith("slide") ? " on the way" : " while it rings";
}

function disturbs({ hold }: Spot, stage: Stage): boolean {
  return hold.strings.some((string) => (stage.pulls[string] ?? 0) !== 0);
}

/** `press A and B`, `F lever on`: a foot presses, a knee throws. */
function phrase(stages: readonly Stage[], footVerb: string, kneeWord: string, heard: string): string[] {
  const pedals = stages.filter(isPedal);
  const others = stages.filter((stage) => !isPedal(stage));
  return [
    ...(pedals.length > 0 ? [`${footVerb} ${joinWords(pedals.map(({ id }) => id))}${heard}`] : []),
    ...others.map(
      (stage) =>
        `${stage.change.id} ${WORKED_BY[stage.change.slot.kind]} ${kneeWord}${stageWords(stage)}${heard}`,
    ),
  ];
}

const WORKED_BY: Readonly<Record<Slot["kind"], string>> = {
  pedal: "pedal",
  knee: "lever",
  lock: "lock",
  hand: "by hand",
};

function stageWords({ change, depth }: Stage): string {
  if (change.stages.length === 1) return "";
  return depth === change.stages.length ? " all the way" : " to its half stop";
}

function chordSentence({ hold }: Spot, chord: NonNullable<ReasonContext["chord"]>): string {
  const more = chord.changes.filter((stage) => !hold.set.ids.includes(stage.id));
  const under =
    more.length > 0
      ? ` once ${joinWords(more.map(({ id }) => id))} ${more.length > 1 ? "are" : "is"} down`
      : "";
  return `the ${chord.isWhole ? "whole " : ""}${chord.letters} chord lies here${under}`;
}

function isPedal({ change }: Stage): boolean {
  return change.slot.kind === "pedal";
}

const COUNT_WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

function countWords(count: number): string {
  return COUNT_WORDS[count] ?? String(count);
}
