/** Whether a press came to something in a lane that answers it by itself: a button, or a field that is typed in. */
export function isOwnTarget(target: EventTarget, kind: "button" | "field"): boolean {
  return target instanceof Element && target.closest(kind === "button" ? "button" : "input, select") !== null;
}
