import { useEffect, useState } from "react";
import type { BenchAnswer, BenchQuestion } from "@/lib/client/places/BenchQuestion";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { wordsOf } from "@/lib/client/requests/request";

const NOTHING: BenchAnswer = { places: [], ways: [], easiestCost: 0, whyNone: null };

export interface BenchPlaces {
  shown: BenchAnswer;
  /** What is shown may still change: the answer is on its way. */
  isWaiting: boolean;
  /** Why there is no answer, in words. */
  fault: string | null;
}

/**
 * The places for the notes on the bench, found off the page's thread. While others are on their way those before stand, so
 * long as they are for the same notes.
 * @param question the same object while nothing of it changes; null where there is nothing to place
 * @param about the same for the same notes
 */
export function useBenchPlaces(question: BenchQuestion | null, about: string): BenchPlaces {
  const [known, setKnown] = useState<{ question: BenchQuestion; about: string; answer: BenchAnswer } | null>(
    null,
  );
  const [fault, setFault] = useState<string | null>(null);

  useEffect(() => {
    setFault(null);
    if (!question) return;
    const stop = new AbortController();
    placeFinder()
      .bench(question, stop.signal)
      .then(
        (answer) => setKnown({ question, about, answer }),
        (thrown: unknown) => {
          if (!stop.signal.aborted) setFault(wordsOf(thrown));
        },
      );
    return () => stop.abort();
  }, [question, about]);

  const isSettled = question === null || known?.question === question;
  return {
    shown: question !== null && known?.about === about ? known.answer : NOTHING,
    isWaiting: !isSettled && fault === null,
    fault,
  };
}
