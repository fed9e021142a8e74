import { useEffect, useRef } from "react";
import type { BenchPlaces } from "./useBenchPlaces";

/** An act that waits for the answer. */
interface Waiting {
  about: string;
  settle(isDone: boolean): void;
}

/**
 * Has an act done on the bench's answer: at once where that stands already, else with the drawing that brings it. It is let go
 * where other notes are named meanwhile.
 * @param about the same for the same notes
 * @param act done on what is drawn last. @returns whether it did anything
 */
export function useSettled(
  { isWaiting }: Pick<BenchPlaces, "isWaiting">,
  about: string,
  act: () => boolean,
): () => Promise<boolean> {
  const waiting = useRef<Waiting>(null);
  const settle = (isDone: boolean) => {
    waiting.current?.settle(isDone);
    waiting.current = null;
  };
  // With every drawing, since what the act does hangs on all that the bench looks at.
  useEffect(() => {
    if (waiting.current === null) return;
    if (waiting.current.about !== about) settle(false);
    else if (!isWaiting) settle(act());
  });
  useEffect(() => () => waiting.current?.settle(false), []);
  return () => {
    settle(false);
    if (!isWaiting) return Promise.resolve(act());
    return new Promise((resolve) => {
      waiting.current = { about, settle: resolve };
    });
  };
}
