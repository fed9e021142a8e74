import { isOnButton } from "./keyTarget";

/** What can be settled by keys. */
export interface Marked {
  ink(): void;
  rubOut(): void;
  /** Absent where there are no edges of its own. */
  moveEdge?(edge: "start" | "end", direction: -1 | 1): void;
}

/** The keys for inking, rubbing out and edges, the same for every kind. @returns whether the key was taken */
export function onMark(event: KeyboardEvent, acts: Marked): boolean {
  switch (event.key) {
    case "Enter":
      if (isOnButton(event)) return false;
      acts.ink();
      return true;
    case "Backspace":
    case "Delete":
      acts.rubOut();
      return true;
    case "[":
    case "]":
      acts.moveEdge?.("start", event.key === "[" ? -1 : 1);
      return true;
    case "{":
    case "}":
      acts.moveEdge?.("end", event.key === "{" ? -1 : 1);
      return true;
    default:
      return false;
  }
}
