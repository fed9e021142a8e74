import { createContext, type ReactNode, useContext, useEffect, useState } from "react";
import { fetchPeaks } from "./fetchPeaks";
import { RecordPeaks } from "./RecordPeaks";

const PeaksHere = createContext<RecordPeaks | null>(null);

/**
 * The record's peaks for all below.
 * @param stage how far the machine is with the record; whenever it changes, peaks that were not there are asked
 * for again
 */
export function PeaksProvider({ url, stage, children }: { url: string; stage: string; children: ReactNode }) {
  const [peaks, setPeaks] = useState<RecordPeaks | null>(null);
  const [missingAt, setMissingAt] = useState<string | null>(null);
  const isOpen = peaks !== null;
  useEffect(() => {
    if (isOpen || missingAt === stage) return;
    const leaving = new AbortController();
    const settle = (opened: RecordPeaks | null) => {
      if (leaving.signal.aborted) opened?.close();
      else if (opened) setPeaks(opened);
      else setMissingAt(stage);
    };
    RecordPeaks.open(fetchPeaks(url), leaving.signal).then(settle, () => settle(null));
    return () => leaving.abort();
  }, [url, stage, missingAt, isOpen]);
  useEffect(() => () => peaks?.close(), [peaks]);
  return <PeaksHere value={peaks}>{children}</PeaksHere>;
}

/** Null until the peaks are there. */
export function usePeaks(): RecordPeaks | null {
  return useContext(PeaksHere);
}
