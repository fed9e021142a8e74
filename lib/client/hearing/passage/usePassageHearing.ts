import { useEffect, useMemo, useRef, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents } from "@/lib/units/quantities";
import { EarCopy } from "../../record/EarCopy";
import { wordsOf } from "../../requests/request";
import { EarWorker } from "./EarWorker";
import { framesFor, toldPassage } from "./passageFrames";
import type { PassageNotes } from "./passageMessages";
import type { PassageStep } from "./passageWords";

/** Hears passages in this browser, one at a time. */
export interface PassageHearing {
  /** The passage that is being heard, and how far that is; null while none is. */
  underWay: { passage: HeardStretch; step: PassageStep } | null;
  /** Why the last one was not heard, in words; null where it was. */
  fault: string | null;
  /**
   * Hears a passage.
   * @param tuningCents of the record; null where it is not known
   * @returns null where it was not heard: a fault, cancelled, or another is being heard
   */
  hear(passage: HeardStretch, tuningCents: Cents | null): Promise<(HeardStretch & PassageNotes) | null>;
  cancel(): void;
}

/** The ear is made ready once the page has had this long for itself. */
const WARM_AFTER_MS = 1_500;

/** @param mayWant whether passages may be heard here: the ear is then made ready while nothing else is done */
export function usePassageHearing(songId: string, mayWant: boolean): PassageHearing {
  const [underWay, setUnderWay] = useState<PassageHearing["underWay"]>(null);
  const [fault, setFault] = useState<string | null>(null);
  const ear = useRef<EarWorker | null>(null);
  const copy = useMemo(() => new EarCopy(api.earCopy(songId)), [songId]);
  const hearing = useRef<AbortController | null>(null);

  useEffect(() => {
    const worker = new EarWorker();
    ear.current = worker;
    const stopWaiting = mayWant && !isSparing() ? whenIdle(() => worker.warm()) : () => {};
    return () => {
      stopWaiting();
      hearing.current?.abort();
      worker.close();
    };
  }, [mayWant]);

  return {
    underWay,
    fault,
    async hear(wanted, tuningCents) {
      if (hearing.current || !ear.current) return null;
      const passage = toldPassage(wanted);
      const stop = new AbortController();
      hearing.current = stop;
      const { signal } = stop;
      const at = (name: PassageStep["name"]) => (fraction: number) => {
        if (!signal.aborted) setUnderWay({ passage, step: { name, fraction } });
      };
      setFault(null);
      at("fetch")(0);
      try {
        const frames = ({ sampleRateHz }: { sampleRateHz: number }) => framesFor(passage, sampleRateHz);
        const stretch = await copy.read(frames, { signal, onMaking: at("copy") });
        at("hear")(0);
        const order = { stretch, passage, tuningCents };
        return { ...passage, ...(await ear.current.hear(order, { signal, onProgress: at("hear") })) };
      } catch (thrown) {
        if (!signal.aborted) setFault(wordsOf(thrown));
        return null;
      } finally {
        hearing.current = null;
        setUnderWay(null);
      }
    },
    cancel: () => hearing.current?.abort(),
  };
}

/** Whether the person asked for as little to be fetched as can be. */
function isSparing(): boolean {
  return "connection" in navigator && (navigator.connection as { saveData?: boolean }).saveData === true;
}

/** Runs something when the page has nothing else to do; answers with how not to. */
function whenIdle(run: () => void): () => void {
  let idle = 0;
  const timer = setTimeout(() => {
    if ("requestIdleCallback" in window) idle = window.requestIdleCallback(run);
    else run();
  }, WARM_AFTER_MS);
  return () => {
    clearTimeout(timer);
    if (idle !== 0) window.cancelIdleCallback(idle);
  };
}
