import { BEAT_STEP_SEC, beatActs } from "./beatActs";
import type { Desk } from "./DeskContext";
import { isOnButton } from "./keyTarget";

/** Keys while beats are being tapped, whatever is selected. @returns whether the key was taken */
export function onTapping(desk: Desk, event: KeyboardEvent): boolean {
  const kind = desk.selection?.kind;
  const isTap = event.key.toLowerCase() === "t";
  // Digits go on while they are held; nobody taps so.
  if (event.repeat && desk.taps.isOpen) return /^[tT1]$/.test(event.key);
  if (!desk.taps.isOpen) {
    // In the part and among heard notes T means something else.
    const isTaken = kind === "caret" || kind === "events" || kind === "note" || kind === "band";
    if (!isTap || !desk.mayWrite || isTaken) return false;
    beatActs(desk).tap(false, performance.now() - event.timeStamp);
    return true;
  }
  switch (event.key) {
    case "t":
    case "T":
    case "1":
      beatActs(desk).tap(!isTap, performance.now() - event.timeStamp);
      return true;
    case "Enter":
      if (isOnButton(event)) return false;
      beatActs(desk).layTaps(event.shiftKey ? "tapped" : "record");
      return true;
    case "Backspace":
    case "Delete":
      desk.taps.takeBack();
      return true;
    default:
      return false;
  }
}

/** Keys for the beat in hand. @returns whether the key was taken */
export function onBeat(desk: Desk, event: KeyboardEvent): boolean {
  const acts = beatActs(desk);
  if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
    if (event.shiftKey) return false;
    acts.step(event.key === "ArrowLeft" ? -1 : 1);
    return true;
  }
  const { beat, grid } = acts;
  if (!desk.mayWrite || beat === null || !grid) return false;
  const sec = grid.beatsSec[beat] ?? 0;
  // With Alt some keyboards give another sign; then what lies on the key counts.
  const digit = /^[1-9]$/.exec(event.key)?.[0] ?? (event.altKey && /^Digit([1-9])$/.exec(event.code)?.[1]);
  if (digit) {
    if (digit === "1") acts.downbeat(beat, event.altKey ? "onward" : "song");
    else acts.meter(Number(digit), event.altKey ? "bar" : "onward");
    return true;
  }
  switch (event.key) {
    case "Enter":
      if (isOnButton(event)) return false;
      acts.ink();
      return true;
    case "[":
    case "]":
      acts.move(beat, sec + (event.key === "[" ? -BEAT_STEP_SEC : BEAT_STEP_SEC));
      return true;
    case "{":
    case "}":
      acts.shift(event.key === "{" ? -BEAT_STEP_SEC : BEAT_STEP_SEC);
      return true;
    case "/":
      acts.halve();
      return true;
    case "*":
      acts.double();
      return true;
    case "s":
    case "S":
      acts.add();
      return true;
    case "d":
    case "D":
      acts.division(grid.division === 3 ? 2 : 3);
      return true;
    case "f":
    case "F":
      acts.free();
      return true;
    case "Backspace":
    case "Delete":
      acts.rubOut();
      return true;
    default:
      return false;
  }
}
