import type { Desk } from "./DeskContext";
import { isOnButton } from "./keyTarget";
import { takeActs } from "./takeActs";
import { takeRemoval } from "./takeRemoval";

/** Keys while a take is selected. @returns whether the key was taken */
export function onTake(desk: Desk, event: KeyboardEvent): boolean {
  const acts = takeActs(desk);
  if (event.altKey) return false;
  switch (event.key) {
    case "ArrowLeft":
    case "ArrowRight":
      if (event.shiftKey) return false;
      acts.step(event.key === "ArrowLeft" ? -1 : 1);
      return true;
    case "Enter":
      if (isOnButton(event)) return false;
      acts.hear("both");
      return true;
    case "s":
      acts.hear("take");
      return true;
    case "S":
      void acts.toggleShared();
      return true;
    case "r":
      acts.hear("record");
      return true;
    case "o":
    case "O":
      acts.toggleLoop();
      return true;
    case "Backspace":
    case "Delete":
      if (acts.take?.isOwn) takeRemoval.ask(acts.take.id);
      return true;
    default:
      return false;
  }
}
