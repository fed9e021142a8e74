import { createContext, type ReactNode, useContext, useEffect, useState } from "react";
import type { Peaks } from "@/lib/contracts/peaks";
import { loadPeaks } from "./loadPeaks";

const PeaksHere = createContext<Peaks | null>(null);
const ASK_AGAIN_MS = 1500;

/** The record's peaks for all below; asked for again until the server has made them. */
export function PeaksProvider({ url, children }: { url: string; children: ReactNode }) {
  const [peaks, setPeaks] = useState<Peaks | null>(null);
  useEffect(() => {
    const leaving = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = async () => {
      const loaded = await loadPeaks(url, leaving.signal).catch(() => null);
      if (leaving.signal.aborted) return;
      if (loaded) setPeaks(loaded);
      else timer = setTimeout(ask, ASK_AGAIN_MS);
    };
    void ask();
    return () => {
      leaving.abort();
      clearTimeout(timer);
    };
  }, [url]);
  return <PeaksHere value={peaks}>{children}</PeaksHere>;
}

/** Null until the peaks are there. */
export function usePeaks(): Peaks | null {
  return useContext(PeaksHere);
}
