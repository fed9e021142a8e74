import { decodePeaksHead, PEAKS_HEAD_BYTES, type PeaksHead } from "@/lib/contracts/peaks";

/** So many pairs are fetched at once: 95 seconds at the second zoom of a record at 44.1 kHz, 8 KB. */
export const TILE_PAIRS = 4_096;
/** So many tiles are kept, 1 MB in all; those looked at longest ago go first. */
const MOST_TILES = 128;
/** A tile that did not come is asked for again after this long. */
const AGAIN_AFTER_MS = 4_000;

/** Answers for a stretch of bytes, both ends included; the whole where there are no ranges; null where there are no peaks. */
export type FetchBytes = (start: number, end: number, signal: AbortSignal) => Promise<FetchedBytes | null>;

export interface FetchedBytes {
  /** At which byte of the peaks they begin. */
  atByte: number;
  bytes: Uint8Array;
}

/**
 * The peaks of one record, fetched as they are looked at: the coarsest zoom whole at the start, of the others the
 * tiles that are drawn.
 */
export class RecordPeaks {
  private readonly tiles = new Map<string, Int8Array>();
  private readonly coming = new Set<string>();
  private readonly watchers = new Set<() => void>();
  private readonly scope = new AbortController();
  private readonly again = new Set<ReturnType<typeof setTimeout>>();

  private constructor(
    readonly head: PeaksHead,
    private readonly fetchBytes: FetchBytes,
    /** Of the coarsest zoom. */
    readonly whole: Int8Array,
    private readonly all: Uint8Array | null,
  ) {}

  /**
   * @returns null while the server has not made them
   * @throws where they cannot be reached or what comes are no peaks
   */
  static async open(fetchBytes: FetchBytes, signal: AbortSignal): Promise<RecordPeaks | null> {
    const first = await fetchBytes(0, PEAKS_HEAD_BYTES - 1, signal);
    if (!first) return null;
    const head = decodePeaksHead(first.bytes);
    const coarsest = head.zooms.at(-1);
    if (!coarsest) throw new RangeError("The peaks hold no zoom.");
    const { atByte, pairCount } = coarsest;
    const isWhole = first.bytes.length > PEAKS_HEAD_BYTES;
    const end = atByte + 2 * pairCount;
    const last = isWhole || pairCount === 0 ? first : await fetchBytes(atByte, end - 1, signal);
    if (!last) return null;
    return new RecordPeaks(head, fetchBytes, cut(last, atByte, end), isWhole ? first.bytes : null);
  }

  /** Seconds that one pair of a zoom holds. */
  pairSec(zoom: number): number {
    return (this.head.zooms[zoom]?.framesPerPair ?? 1) / this.head.sampleRateHz;
  }

  /** The coarsest zoom whose pairs are no longer than this; the finest where all are. */
  zoomFor(sec: number): number {
    const { zooms } = this.head;
    for (let zoom = zooms.length - 1; zoom > 0; zoom--) if (this.pairSec(zoom) <= sec) return zoom;
    return 0;
  }

  /**
   * Lowest and highest samples by turns of one tile of a zoom, -127 to 127; null while it is fetched, and watchers are told
   * when it has come.
   */
  tile(zoom: number, index: number): Int8Array | null {
    const place = this.head.zooms[zoom];
    if (!place) return null;
    if (zoom === this.head.zooms.length - 1)
      return this.whole.subarray(2 * index * TILE_PAIRS, 2 * (index + 1) * TILE_PAIRS);
    const start = place.atByte + 2 * index * TILE_PAIRS;
    const end = Math.min(place.atByte + 2 * place.pairCount, start + 2 * TILE_PAIRS);
    if (start >= end) return null;
    if (this.all) return cut({ atByte: 0, bytes: this.all }, start, end);
    const name = `${zoom}.${index}`;
    const kept = this.tiles.get(name);
    if (kept) {
      // Looked at last, so it goes last.
      this.tiles.delete(name);
      this.tiles.set(name, kept);
      return kept;
    }
    void this.fetchTile(name, start, end);
    return null;
  }

  /** Calls back when more has come; returns the way to stop. */
  readonly watch = (watcher: () => void): (() => void) => {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  };

  /** Stops what is being fetched; nothing is told any more. */
  close(): void {
    this.scope.abort();
    for (const timer of this.again) clearTimeout(timer);
    this.watchers.clear();
  }

  private async fetchTile(name: string, start: number, end: number): Promise<void> {
    if (this.coming.has(name) || this.scope.signal.aborted) return;
    this.coming.add(name);
    try {
      const part = await this.fetchBytes(start, end - 1, this.scope.signal);
      if (!part) throw new RangeError("The peaks are gone.");
      this.tiles.set(name, cut(part, start, end));
      for (const oldest of this.tiles.keys()) {
        if (this.tiles.size <= MOST_TILES) break;
        this.tiles.delete(oldest);
      }
      this.coming.delete(name);
      this.tell();
    } catch {
      // Until then the coarsest zoom is drawn in its place.
      if (this.scope.signal.aborted) return;
      const timer = setTimeout(() => {
        this.again.delete(timer);
        this.coming.delete(name);
        this.tell();
      }, AGAIN_AFTER_MS);
      this.again.add(timer);
    }
  }

  private tell(): void {
    for (const watcher of [...this.watchers]) watcher();
  }
}

/** @throws {RangeError} where not all of them came */
function cut({ atByte, bytes }: FetchedBytes, start: number, end: number): Int8Array {
  if (start < atByte || end > atByte + bytes.length) throw new RangeError("The peaks are cut short.");
  return new Int8Array(bytes.buffer, bytes.byteOffset + start - atByte, end - start);
}
