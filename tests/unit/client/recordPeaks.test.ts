import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type FetchBytes, RecordPeaks, TILE_PAIRS } from "@/lib/client/record/RecordPeaks";
import { loudestOf, waveBars } from "@/lib/client/record/waveBars";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { decodePeaks, encodePeaks, PEAKS_HEAD_BYTES } from "@/lib/contracts/peaks";

const RATE_HZ = 8_000;

/** The peaks of a record whose samples grow from silence to full scale. */
function growing(durationSec: number): Uint8Array<ArrayBuffer> {
  const samples = Float32Array.from({ length: durationSec * RATE_HZ }, (_, at) => {
    const loud = at / (durationSec * RATE_HZ);
    return at % 2 === 0 ? loud : -loud;
  });
  const maker = new PeakMaker();
  maker.begin(1, RATE_HZ);
  maker.take([samples], samples.length);
  return encodePeaks(maker.finish());
}

/** A server of these bytes that notes what was asked of it; without ranges it gives the whole. */
function serving(bytes: Uint8Array, hasRanges = true) {
  const asked: { start: number; end: number }[] = [];
  const fetchBytes: FetchBytes = async (start, end) => {
    asked.push({ start, end });
    return hasRanges ? { atByte: start, bytes: bytes.slice(start, end + 1) } : { atByte: 0, bytes };
  };
  return { asked, fetchBytes };
}

const never = new AbortController().signal;
const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

async function openPeaks(fetchBytes: FetchBytes): Promise<RecordPeaks> {
  const peaks = await RecordPeaks.open(fetchBytes, never);
  if (!peaks) throw new Error("there are no peaks");
  return peaks;
}

describe("peaks fetched as they are drawn", () => {
  it("open with the head and the coarsest zoom alone", async () => {
    const bytes = growing(600);
    const { asked, fetchBytes } = serving(bytes);
    const peaks = await openPeaks(fetchBytes);
    const coarsest = decodePeaks(bytes).zooms.at(-1)!;
    expect(asked).toEqual([
      { start: 0, end: PEAKS_HEAD_BYTES - 1 },
      { start: bytes.length - coarsest.pairs.length, end: bytes.length - 1 },
    ]);
    expect([...peaks.whole]).toEqual([...coarsest.pairs]);
    expect(loudestOf(peaks)).toBe(127);
  });

  it("draw from the coarsest zoom at once and from the finer one when its tile has come, which is asked for once", async () => {
    const bytes = growing(600);
    const { asked, fetchBytes } = serving(bytes);
    const peaks = await openPeaks(fetchBytes);
    let told = 0;
    peaks.watch(() => {
      told += 1;
    });
    const barSec = peaks.pairSec(0);
    const first = waveBars(peaks, 300, barSec, 50);
    expect(first.isWhole).toBe(false);
    expect(first.pairs[1]).toBeGreaterThan(60);
    await settled();
    expect([told, asked.length]).toEqual([1, 3]);
    const { start, end } = asked[2]!;
    expect(end - start + 1).toBeLessThanOrEqual(2 * TILE_PAIRS);
    const later = waveBars(peaks, 300, barSec, 50);
    expect(later.isWhole).toBe(true);
    const finest = decodePeaks(bytes).zooms[0]!;
    const at = Math.floor(300 / barSec);
    expect([...later.pairs]).toEqual([...finest.pairs.slice(2 * at, 2 * (at + 50))]);
    expect(asked).toHaveLength(3);
  });

  it("hold under any bar what the whole peaks hold there, with or without ranges", async () => {
    const bytes = growing(120);
    for (const hasRanges of [true, false]) {
      const { fetchBytes } = serving(bytes, hasRanges);
      const peaks = await openPeaks(fetchBytes);
      await fc.assert(
        fc.asyncProperty(
          fc.double({ min: 0, max: 119, noNaN: true }),
          fc.double({ min: 0.01, max: 3, noNaN: true }),
          async (fromSec, barSec) => {
            waveBars(peaks, fromSec, barSec, 1);
            await settled();
            await settled();
            const { pairs, isWhole } = waveBars(peaks, fromSec, barSec, 1);
            expect(isWhole).toBe(true);
            // It grows evenly: the bar's highest is what is reached at its end, less one pair at most, rounded outwards.
            const zoom = peaks.zoomFor(barSec);
            const slackSec = peaks.pairSec(zoom);
            const at = (sec: number) => (127 * Math.min(120, Math.max(0, sec))) / 120;
            expect(pairs[1]).toBeGreaterThanOrEqual(Math.floor(at(fromSec + barSec - slackSec)));
            expect(pairs[1]).toBeLessThanOrEqual(Math.ceil(at(fromSec + barSec + slackSec)) + 1);
          },
        ),
        { numRuns: 40 },
      );
      peaks.close();
    }
  });

  it("keep a bounded number of tiles however long the record is", async () => {
    const count = 200;
    const bytes = encodePeaks({
      sampleRateHz: RATE_HZ,
      frameCount: count * TILE_PAIRS * 256,
      zooms: [
        { framesPerPair: 256, pairs: new Int8Array(2 * count * TILE_PAIRS) },
        { framesPerPair: 1_024, pairs: new Int8Array(2) },
        { framesPerPair: 4_096, pairs: new Int8Array(2) },
        { framesPerPair: 16_384, pairs: new Int8Array(2) },
      ],
    });
    const { asked, fetchBytes } = serving(bytes);
    const peaks = await openPeaks(fetchBytes);
    for (let tile = 0; tile < count; tile++) {
      peaks.tile(0, tile);
      await settled();
    }
    expect(asked).toHaveLength(2 + count);
    expect(peaks.tile(0, count - 1)).not.toBeNull();
    // The first was given up for later ones, and is asked for anew.
    expect(peaks.tile(0, 0)).toBeNull();
    await settled();
    expect(asked).toHaveLength(3 + count);
  });

  it("are none while the server has not made them, and a fault where they are none or cut short", async () => {
    expect(await RecordPeaks.open(async () => null, never)).toBeNull();
    const bytes = growing(60);
    await expect(RecordPeaks.open(serving(bytes.slice(0, 40)).fetchBytes, never)).rejects.toThrow(RangeError);
    await expect(RecordPeaks.open(serving(bytes.slice(0, 300)).fetchBytes, never)).rejects.toThrow(
      /cut short/,
    );
    await expect(RecordPeaks.open(serving(new Uint8Array(200)).fetchBytes, never)).rejects.toThrow(
      RangeError,
    );
  });
});
