import type { HeardNote } from "../Hearing";
import { isSteel } from "./isSteel";
import type { PassageTraits, Texture } from "./passageTraits";
import { passageTraits } from "./passageTraits";

const TEXTURES: Record<Texture, string> = {
  singles: "single notes",
  pairs: "pairs",
  chords: "three or more strings together",
  mixed: "single notes and pairs mixed",
};
const MOTIONS: Record<PassageTraits["motion"], string> = {
  still: "the top note stays where it is",
  stepwise: "the top line goes by steps",
  chromatic: "the top line goes chromatically, fret by fret",
  leaping: "the top line leaps",
  "steps and leaps": "the top line mixes steps and leaps",
};
const DIRECTIONS: Record<PassageTraits["direction"], string> = {
  staying: "stays in one part of the neck",
  up: "moves up the neck",
  down: "moves down the neck",
};
const SPACINGS = { near: "near together", far: "far apart", both: "some near together, some far apart" };

/**
 * What a teacher would say of a passage, in plain words, most telling first: of the steel's notes, where any are.
 * Nothing is said of no notes.
 */
export function passageWords(notes: readonly HeardNote[]): string[] {
  const steel = notes.filter(isSteel);
  const traits = passageTraits(steel.length > 0 ? steel : notes);
  if (!traits) return [];
  const { texture, motion, direction } = traits;
  return [
    TEXTURES[texture],
    ...pairWords(traits),
    MOTIONS[motion],
    DIRECTIONS[direction],
    ...glideWords(traits),
  ];
}

function pairWords({ texture, pairs }: PassageTraits): string[] {
  if (!pairs || texture === "singles" || texture === "chords") return [];
  const spacing = SPACINGS[pairs.spacing];
  return [pairs.interval ? `mostly ${pairs.interval}, ${spacing}` : `no one interval, ${spacing}`];
}

function glideWords({ glides: { pedal, bar, unsure } }: PassageTraits): string[] {
  const words: string[] = [];
  if (pedal + bar + unsure === 0) return ["no glides"];
  if (pedal > 0) words.push(`pedals or levers glide ${times(pedal)}`);
  if (bar > 0) words.push(`the bar glides ${times(bar)}`);
  if (unsure > 0)
    words.push(`${unsure === 1 ? "one glide" : `${unsure} glides`} by pedal or bar, not to be told`);
  return words;
}

function times(count: number): string {
  return count === 1 ? "once" : count === 2 ? "twice" : `${count} times`;
}
