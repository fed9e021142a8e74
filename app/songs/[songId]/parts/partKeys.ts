import type { Technique } from "@/lib/notation/Technique";
import type { Desk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { gripActs } from "./gripActs";
import { isOnButton } from "./keyTarget";
import { lockActs } from "./lockActs";
import { onMark } from "./markKeys";
import { partActs } from "./partActs";
import { soundActs } from "./soundActs";

/** Digits typed within this time belong to one fret. */
const DIGITS_TOGETHER_MS = 1200;

/** What earlier keys in the part lead on to. */
export interface PartTyping {
  /** The fret as it is being typed. */
  text: string;
  atMs: number;
  /** What had the focus when a place was last tried by key. */
  triedFrom: EventTarget | null;
}

/** Keys while the caret is in the part. @returns whether the key was taken */
export function onPart(desk: Desk, event: KeyboardEvent, typed: PartTyping): boolean {
  const acts = partActs(desk);
  const arrow = ARROWS[event.key];
  if (arrow) {
    typed.text = "";
    if (!onChosenArrow(desk, event, arrow)) acts.move(arrow, event.altKey);
    return true;
  }
  if (event.key.toLowerCase() === "n") {
    soundActs(desk).tryNext();
    typed.triedFrom = event.target;
    return true;
  }
  const lock = LOCK_KEYS[event.key];
  if (lock) {
    lockActs(desk)[lock]();
    return true;
  }
  if (!desk.mayWrite) return false;
  // A button takes Enter for itself, but not one that merely kept the focus while a place was tried.
  const isFree = !isOnButton(event) || event.target === typed.triedFrom;
  if (event.key === "Enter" && isFree && soundActs(desk).writeTried()) return true;
  if (/^\d$/.test(event.key)) {
    const before = performance.now() - typed.atMs < DIGITS_TOGETHER_MS ? typed.text : "";
    typed.text = acts.digit(before, event.key);
    typed.atMs = performance.now();
    return true;
  }
  typed.text = "";
  if (onMark(event, acts) || onPlaying(desk, event)) return true;
  switch (event.key) {
    case "_":
      acts.listChanges();
      return true;
    case "F2":
      desk.setNaming(true);
      return true;
    default:
      return /^[a-zA-Z]$/.test(event.key) && acts.letter(event.key);
  }
}

/** Keys while several events of the part are chosen. @returns whether the key was taken */
export function onEvents(desk: Desk, event: KeyboardEvent): boolean {
  const acts = eventsActs(desk);
  const arrow = ARROWS[event.key];
  if (arrow) {
    if (onChosenArrow(desk, event, arrow)) return true;
    if (acts.caret) {
      const selection = { kind: "caret", caret: acts.caret } as const;
      partActs({ ...desk, selection }).move(arrow, event.altKey);
    }
    return true;
  }
  if (!desk.mayWrite) return false;
  if (event.key.toLowerCase() === "n") {
    void gripActs(desk).next();
    return true;
  }
  const { ink, rubOut } = acts;
  const moveEdge = (edge: "start" | "end", direction: -1 | 1) =>
    edge === "start" ? acts.step(direction) : acts.stretch(direction);
  if (onMark(event, { ink, rubOut, moveEdge }) || onPlaying(desk, event)) return true;
  if (event.key === '"') {
    acts.quantise();
    return true;
  }
  return /^[a-zA-Z]$/.test(event.key) && acts.letter(event.key);
}

/** Shift with an arrow chooses events; Alt with an arrow up or down moves them by a half step, with Shift by an octave. */
function onChosenArrow(desk: Desk, event: KeyboardEvent, arrow: "left" | "right" | "up" | "down"): boolean {
  if (event.altKey && (arrow === "up" || arrow === "down")) {
    const semitones = (arrow === "up" ? 1 : -1) * (event.shiftKey ? 12 : 1);
    if (desk.mayWrite) void gripActs(desk).transpose(semitones);
    return true;
  }
  if (!event.shiftKey) return false;
  eventsActs(desk).extend(arrow);
  return true;
}

/** How what is chosen begins, and what is done to it. */
function onPlaying(desk: Desk, event: KeyboardEvent): boolean {
  const begins = BEGINS[event.key];
  const technique = TECHNIQUE_KEYS[event.key];
  if (begins) eventsActs(desk).articulate(begins);
  else if (technique) eventsActs(desk).technique(technique);
  return begins !== undefined || technique !== undefined;
}

const BEGINS: Readonly<Record<string, "slide" | "press" | "tie">> = {
  "/": "slide",
  ">": "press",
  "<": "tie",
};

/** `~` is a dead key on some keyboards, `$` on none. */
const TECHNIQUE_KEYS: Readonly<Record<string, Technique>> = {
  "'": "block",
  "~": "vibrato",
  $: "vibrato",
  "@": "harmonic",
};

/** None of them is a dead key on a usual keyboard, as `^` is on German, French and Spanish ones. */
const LOCK_KEYS: Readonly<Record<string, keyof ReturnType<typeof lockActs>>> = {
  "*": "string",
  "#": "fret",
  "&": "pedals",
  "%": "open",
};

const ARROWS: Readonly<Record<string, "left" | "right" | "up" | "down">> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};
