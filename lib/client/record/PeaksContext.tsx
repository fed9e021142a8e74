import { createContext, type ReactNode, useContext, useEffect, useState } from "react";
import type { Peaks } from "@/lib/contracts/peaks";
import { loadPeaks } from "./loadPeaks";

const PeaksHere = createContext<Peaks | null>(null);

/**
 * The record's peaks for all below.
 * @param stage how far the machine is with the record; whenever it changes, peaks that were not there are asked
 * for again
 */
export function PeaksProvider({ url, stage, children }: { url: string; stage: string; children: ReactNode }) {
  const [peaks, setPeaks] = useState<Peaks | null>(null);
  const [missingAt, setMissingAt] = useState<string | null>(null);
  const isLoaded = peaks !== null;
  useEffect(() => {
    if (isLoaded || missingAt === stage) return;
    const leaving = new AbortController();
    const settle = (loaded: Peaks | null) => {
      if (leaving.signal.aborted) return;
      if (loaded) setPeaks(loaded);
      else setMissingAt(stage);
    };
    loadPeaks(url, leaving.signal).then(settle, () => settle(null));
    return () => leaving.abort();
  }, [url, stage, missingAt, isLoaded]);
  return <PeaksHere value={peaks}>{children}</PeaksHere>;
}

/** Null until the peaks are there. */
export function usePeaks(): Peaks | null {
  return useContext(PeaksHere);
}
