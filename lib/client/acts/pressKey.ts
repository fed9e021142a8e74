import type { KeyPress } from "./readKeys";

/** Presses a key for a person, with nothing of the page in focus. @returns whether the page took it */
export function pressKey({ label: _, ...press }: KeyPress): boolean {
  const event = new KeyboardEvent("keydown", { ...press, bubbles: true, cancelable: true });
  return !document.body.dispatchEvent(event);
}
