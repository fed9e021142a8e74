import { decodePeaks, type Peaks } from "@/lib/contracts/peaks";

/**
 * The peaks of a record.
 * @returns null while the server has not made them
 * @throws where the server cannot be reached or what it sends are no peaks
 */
export async function loadPeaks(url: string, signal: AbortSignal): Promise<Peaks | null> {
  const response = await fetch(url, { credentials: "same-origin", signal });
  if (!response.ok) return null;
  return decodePeaks(new Uint8Array(await response.arrayBuffer()));
}

/**
 * Highest and lowest samples of each stretch at the finest zoom, as a waveform drawing wants them.
 * @returns -1 to 1, highest first
 */
export function finestPeaks(peaks: Peaks): [highest: Float32Array, lowest: Float32Array] {
  const pairs = peaks.zooms[0]?.pairs ?? new Int8Array(0);
  const count = pairs.length / 2;
  const highest = Float32Array.from({ length: count }, (_, index) => pairs[2 * index + 1]! / 127);
  const lowest = Float32Array.from({ length: count }, (_, index) => pairs[2 * index]! / 127);
  return [highest, lowest];
}
