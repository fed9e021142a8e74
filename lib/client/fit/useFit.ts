import { useEffect, useState, useSyncExternalStore } from "react";
import { api } from "@/lib/contracts/api";
import type { FitAnswer } from "@/lib/fit/FitAnswer";
import type { Cents } from "@/lib/units/quantities";
import { EarCopy } from "../record/EarCopy";
import { wordsOf } from "../requests/request";
import { FitWorker } from "./FitWorker";
import type { AskedFit } from "./fitMessages";
import { type CheckState, PassageCheck } from "./PassageCheck";
import { RecordFitter } from "./RecordFitter";

/** What holds guesses against the record on a song page, and the check of its part. */
export interface SongFit {
  fitter: RecordFitter;
  check: PassageCheck;
}

/** It is made ready once the page has had this long for itself. */
const WARM_AFTER_MS = 2_500;

/**
 * For as long as the page shows the song; null until it is there.
 * @param tuningCents of the record; null where it is not known
 */
export function useSongFit(songId: string, tuningCents: Cents | null): SongFit | null {
  const [fit, setFit] = useState<SongFit | null>(null);
  useEffect(() => {
    const fitter = new RecordFitter(new EarCopy(api.earCopy(songId)), new FitWorker());
    const check = new PassageCheck(fitter);
    setFit({ fitter, check });
    return () => {
      check.close();
      fitter.close();
    };
  }, [songId]);
  useEffect(() => {
    if (!fit || tuningCents === null) return;
    const timer = setTimeout(() => fit.fitter.warm(tuningCents), WARM_AFTER_MS);
    return () => clearTimeout(timer);
  }, [fit, tuningCents]);
  return fit;
}

/** How one guess reads; null of what is not told yet. */
export interface FitReading {
  answer: FitAnswer | null;
  /** Why there is none, in words. */
  fault: string | null;
}

const UNREAD: FitReading = { answer: null, fault: null };
/** A guess that is gone over quickly is not asked for. */
const SETTLED_AFTER_MS = 150;

/** Holds what is selected against the record as soon as it stays so for a moment. */
export function useFitReading(
  fit: SongFit | null,
  asked: AskedFit | null,
  tuningCents: Cents | null,
): FitReading {
  const key = asked ? JSON.stringify([asked, tuningCents]) : null;
  const [read, setRead] = useState<{ key: string; reading: FitReading } | null>(null);
  useEffect(() => {
    if (!fit || key === null) return;
    const [wanted, tuning] = JSON.parse(key) as [AskedFit, Cents | null];
    const stop = new AbortController();
    const timer = setTimeout(() => {
      fit.fitter.ask(wanted, tuning, stop.signal).then(
        (answer) => setRead({ key, reading: { answer, fault: null } }),
        (thrown) => {
          if (!stop.signal.aborted) setRead({ key, reading: { answer: null, fault: wordsOf(thrown) } });
        },
      );
    }, SETTLED_AFTER_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [fit, key]);
  return read && read.key === key ? read.reading : UNREAD;
}

const NO_CHECK: CheckState = { underWay: null, fault: null, marks: [], refusedCount: 0 };
const never = () => () => {};
const nothing = () => NO_CHECK;

/** How far the check of the part is, and its marks. */
export function useCheckState(fit: SongFit | null): CheckState {
  return useSyncExternalStore(fit?.check.watch ?? never, fit?.check.now ?? nothing, nothing);
}
