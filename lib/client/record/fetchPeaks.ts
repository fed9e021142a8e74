import type { FetchBytes } from "./RecordPeaks";

/** Fetches peaks by HTTP ranges from an address; the whole where something on the way does not know ranges. */
export function fetchPeaks(url: string): FetchBytes {
  return async (start, end, signal) => {
    const headers = { range: `bytes=${start}-${end}` };
    const response = await fetch(url, { credentials: "same-origin", headers, signal });
    if (!response.ok) return null;
    const bytes = new Uint8Array(await response.arrayBuffer());
    return { atByte: response.status === 206 ? start : 0, bytes };
  };
}
