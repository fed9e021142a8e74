import type { Desk } from "./DeskContext";
import { isOnButton } from "./keyTarget";
import type { takeActs } from "./takeActs";

type Acts = ReturnType<typeof takeActs>;

/** Keys while a take is selected; letters that differ only in Shift stand apart. */
const DOES: Readonly<Record<string, (acts: Acts) => unknown>> = {
  ArrowLeft: (acts) => acts.step(-1),
  ArrowRight: (acts) => acts.step(1),
  Enter: (acts) => acts.hear("both"),
  s: (acts) => acts.hear("take"),
  S: (acts) => acts.toggleShared(),
  r: (acts) => acts.hear("record"),
  o: (acts) => acts.toggleLoop(),
  Backspace: (acts) => acts.askRemoval(),
  Delete: (acts) => acts.askRemoval(),
};

/** What keys do is fetched with the lane: where a take is selected, it is there. @returns whether the key was taken */
export function onTake(desk: Desk, event: KeyboardEvent): boolean {
  const does = DOES[event.key];
  const isArrow = event.key.startsWith("Arrow");
  if (!does || event.altKey || (event.shiftKey && isArrow)) return false;
  if (event.key === "Enter" && isOnButton(event)) return false;
  void import("./takeActs").then(({ takeActs }) => does(takeActs(desk.now())));
  return true;
}
