import { api } from "@/lib/contracts/api";
import type { SongPage } from "@/lib/contracts/books";
import { KEPT_CACHES, VISITED_HEADER } from "@/lib/contracts/offline";
import { oldestFirst, type TakesRoom } from "./oldestFirst";

/** What all kept songs of a browser may take together, in bytes; the oldest give way. */
export const KEPT_LIMIT_BYTES = 400e6;

/** A song that opens without the server. */
export interface KeptSong extends TakesRoom {
  page: SongPage;
  hasRecord: boolean;
}

/** What came of keeping a recording. */
export type RecordKept = "kept" | "too-large" | "not-reached";

const AS_KEPT = { ignoreVary: true } as const;

/** Where a browser keeps what songs open from, but for the shared document, which has a store of its own; null where it has none. */
export function keptSongsHere(): KeptSongs | null {
  return typeof caches === "undefined" ? null : new KeptSongs(caches, (url, init) => fetch(url, init));
}

/**
 * The songs that one person opened in this browser: page, peaks and recording of each. There is never more than one
 * person's: whoever comes next finds nothing of the one before.
 */
export class KeptSongs {
  constructor(
    private readonly caches: CacheStorage,
    private readonly fetchIt: (url: string, init?: RequestInit) => Promise<Response>,
    private readonly limitBytes = KEPT_LIMIT_BYTES,
  ) {}

  /**
   * Keeps what a song's page begins with, as the server gives it now: a page may stand open while somebody else signs in, or
   * while its person leaves the book.
   * @param page as it was opened, by whom
   * @param visitedAtMs when, in milliseconds since 1970
   * @returns whether it is kept
   */
  async keepPage({ id, me }: SongPage, visitedAtMs: number, signal: AbortSignal): Promise<boolean> {
    const answer = await this.fetchIt(api.song(id), { signal });
    if (answer.status === 404) await this.forgetSong(id);
    if (answer.status !== 200) return false;
    const page = (await answer.json()) as SongPage;
    if (signal.aborted || page.me.id !== me.id) return false;
    await this.forgetAllBut(me.id);
    const headers = { "content-type": "application/json", [VISITED_HEADER]: String(visitedAtMs) };
    const cache = await this.caches.open(nameOf(me.id));
    await cache.put(api.song(id), new Response(JSON.stringify(page), { headers }));
    return true;
  }

  /** Keeps the peaks, where they are made and the page is kept. */
  async keepPeaks({ id, me }: SongPage, signal: AbortSignal): Promise<void> {
    const cache = await this.of(me.id);
    if (!cache || (await cache.match(api.peaks(id), AS_KEPT))) return;
    const answer = await this.fetchIt(api.peaks(id), { signal });
    if (answer.status === 200) await cache.put(api.peaks(id), await whole(answer));
  }

  /** Keeps the recording, where the page is kept; where room is wanting, songs that were not opened for the longest go. */
  async keepRecord({ id, me }: SongPage, signal: AbortSignal): Promise<RecordKept> {
    const cache = await this.of(me.id);
    if (!cache) return "not-reached";
    const address = api.record(id);
    if (await cache.match(address, AS_KEPT)) return "kept";
    const asked = await this.fetchIt(address, { method: "HEAD", signal });
    const byteCount = Number(asked.headers.get("content-length"));
    if (!asked.ok || !byteCount) return "not-reached";
    const others = (await this.shelf()).filter(({ songId }) => songId !== id);
    const leaving = oldestFirst(others, byteCount, this.limitBytes);
    if (leaving === null) return "too-large";
    for (const songId of leaving) await this.forgetSong(songId);
    const answer = await this.fetchIt(address, { signal });
    if (answer.status !== 200) return "not-reached";
    const bytes = await whole(answer);
    // Signed out meanwhile: a cache that was given up stays so.
    if (signal.aborted || !(await this.caches.has(nameOf(me.id)))) return "not-reached";
    try {
      await cache.put(address, bytes);
    } catch (fault) {
      if (fault instanceof DOMException && fault.name === "QuotaExceededError") return "too-large";
      throw fault;
    }
    return "kept";
  }

  /** All that is kept, what was opened last first; empty where two persons' songs lie side by side. */
  async shelf(): Promise<KeptSong[]> {
    const cache = await this.onlyOne();
    if (!cache) return [];
    const songs: KeptSong[] = [];
    for (const { url } of await cache.keys()) {
      const { pathname } = new URL(url);
      const kept = await cache.match(url, AS_KEPT);
      if (!kept || !/^\/api\/songs\/[^/]+$/.test(pathname)) continue;
      const page = (await kept.json()) as SongPage;
      const record = await cache.match(api.record(page.id), AS_KEPT);
      const peaks = await cache.match(api.peaks(page.id), AS_KEPT);
      songs.push({
        songId: page.id,
        page,
        visitedAtMs: Number(kept.headers.get(VISITED_HEADER)),
        byteCount: [kept, record, peaks].reduce((sum, one) => sum + lengthOf(one), 0),
        hasRecord: record !== undefined,
      });
    }
    return songs.sort((a, b) => b.visitedAtMs - a.visitedAtMs);
  }

  /** One kept song; null where it is not. */
  async find(songId: string): Promise<KeptSong | null> {
    return (await this.shelf()).find((song) => song.songId === songId) ?? null;
  }

  /** What is kept under an address of a song; whatever cookie it came by, it lies in the cache of its person. */
  async match(address: string): Promise<Response | undefined> {
    return (await this.onlyOne())?.match(address, AS_KEPT);
  }

  async forgetSong(songId: string): Promise<void> {
    for (const name of await this.names()) {
      const cache = await this.caches.open(name);
      for (const path of [api.song(songId), api.record(songId), api.peaks(songId)])
        await cache.delete(path, AS_KEPT);
    }
  }

  /** Gives up what is kept of everyone but one person; of everyone with null. */
  async forgetAllBut(userId: string | null): Promise<void> {
    const own = userId === null ? null : nameOf(userId);
    for (const name of await this.names()) if (name !== own) await this.caches.delete(name);
  }

  /** Null where it was given up, or never was: to open it would make it. */
  private async of(userId: string): Promise<Cache | null> {
    const name = nameOf(userId);
    return (await this.caches.has(name)) ? this.caches.open(name) : null;
  }

  /** The cache of the one person whose songs are kept; null where there is none, or where two persons' lie side by side. */
  private async onlyOne(): Promise<Cache | null> {
    const [name, second] = await this.names();
    return name === undefined || second !== undefined ? null : this.caches.open(name);
  }

  private async names(): Promise<string[]> {
    return (await this.caches.keys()).filter((name) => name.startsWith(KEPT_CACHES));
  }
}

function nameOf(userId: string): string {
  return KEPT_CACHES + encodeURIComponent(userId);
}

/** An answer as it is kept: all of its bytes, how many they are, and of what kind. */
async function whole(answer: Response): Promise<Response> {
  const bytes = await answer.blob();
  const contentType = answer.headers.get("content-type") ?? "application/octet-stream";
  return new Response(bytes, {
    headers: { "content-type": contentType, "content-length": String(bytes.size) },
  });
}

function lengthOf(kept: Response | undefined): number {
  return Number(kept?.headers.get("content-length") ?? 0);
}
