import { guessTyped } from "@/lib/client/lesson/guessText";
import { hasNumbers } from "@/lib/client/song/typedNumbers";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { Desk } from "./DeskContext";
import { isHomeUnseen } from "./selection";

/**
 * What a guess begins with as it is opened: the place that is being tried, or the notes that were played in or named on the
 * bench; nothing where there is none, or it would not be read.
 */
export function guessAtHand({ trial, onBench, selection, opened }: Desk, lane: GuessLane): string {
  if (lane === "places") {
    const [event] = trial.now().tried ? trial.now().events : [];
    if (!event) return "";
    const { strings, fret, changes } = event;
    return guessTyped({ lane, value: { strings, fret, changes } });
  }
  if (lane !== "heard") return "";
  const timeSec = selection?.kind === "caret" ? selection.caret.timeSec : 0;
  return hasNumbers(onBench.text) && isHomeUnseen(opened.song, timeSec) ? "" : onBench.text;
}
