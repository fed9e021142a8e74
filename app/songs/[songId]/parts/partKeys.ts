import type { Desk } from "./DeskContext";
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
    if (event.shiftKey && (arrow === "left" || arrow === "right"))
      acts.moveEdge("end", arrow === "left" ? -1 : 1);
    else acts.move(arrow, event.altKey);
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
  if (onMark(event, acts)) return true;
  switch (event.key) {
    case "/":
      acts.articulate("slide");
      return true;
    case ">":
      acts.articulate("press");
      return true;
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
