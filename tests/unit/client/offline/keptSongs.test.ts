import { describe, expect, it } from "vitest";
import { KeptSongs } from "@/lib/client/kept/KeptSongs";
import { oldestFirst } from "@/lib/client/kept/oldestFirst";
import type { SongPage } from "@/lib/contracts/books";
import { memoryCaches } from "./memoryCaches";

const RECORD_BYTES = 1000;
const signal = new AbortController().signal;

function songPage(id: string, userId = "ada"): SongPage {
  return {
    id,
    title: `Song ${id}`,
    bookId: "book",
    bookTitle: "Book",
    role: "teacher",
    durationSec: 60,
    sampleRateHz: 44100,
    channelCount: 2,
    recordUrl: `/api/songs/${id}/record`,
    peaksUrl: `/api/songs/${id}/peaks`,
    me: { id: userId, name: userId },
    members: [],
    hearing: null,
  };
}

function shelfOf(limitBytes: number) {
  const caches = memoryCaches();
  const asked: string[] = [];
  /** Who is signed in, as the server sees it. */
  const server = { userId: "ada", status: 200 };
  const fetchIt = async (url: string, init: RequestInit = {}) => {
    asked.push(`${init.method ?? "GET"} ${url}`);
    if (server.status !== 200) return new Response(null, { status: server.status });
    const songId = /^\/api\/songs\/(\w+)$/.exec(url)?.[1];
    if (songId) return Response.json(songPage(songId, server.userId));
    const size = url.endsWith("/record") ? RECORD_BYTES : 10;
    const body = init.method === "HEAD" ? null : new Uint8Array(size);
    return new Response(body, { headers: { "content-length": String(size), "content-type": "audio/ogg" } });
  };
  const songs = new KeptSongs(caches, fetchIt, limitBytes);
  const visit = async (page: SongPage, atMs: number) => {
    server.userId = page.me.id;
    await songs.keepPage(page, atMs, signal);
    await songs.keepPeaks(page, signal);
    return songs.keepRecord(page, signal);
  };
  return { caches, songs, visit, asked, server };
}

describe("songs that open without the server", () => {
  it("are kept with peaks and recording, each recording fetched once", async () => {
    const { songs, visit, asked } = shelfOf(5000);
    expect(await visit(songPage("a"), 1)).toBe("kept");
    expect(await visit(songPage("a"), 2)).toBe("kept");
    const [song] = await songs.shelf();
    expect(song).toMatchObject({
      songId: "a",
      visitedAtMs: 2,
      hasRecord: true,
      byteCount: RECORD_BYTES + 10,
    });
    expect(song?.page.title).toBe("Song a");
    expect(asked.filter((line) => line === "GET /api/songs/a/record")).toHaveLength(1);
  });

  it("give way oldest first where room is wanting, and a recording that is too large alone drives nobody out", async () => {
    const { songs, visit } = shelfOf(2 * RECORD_BYTES + 100);
    await visit(songPage("a"), 1);
    await visit(songPage("b"), 2);
    await songs.keepPage(songPage("a"), 3, signal);
    await visit(songPage("c"), 4);
    expect((await songs.shelf()).map(({ songId }) => songId)).toEqual(["c", "a"]);

    const small = shelfOf(RECORD_BYTES - 1);
    expect(await small.visit(songPage("a"), 1)).toBe("too-large");
    expect((await small.songs.shelf())[0]).toMatchObject({ songId: "a", hasRecord: false });
  });

  it("are one person's only: the next person's first song gives them up, and so does signing out", async () => {
    const { songs, visit, caches } = shelfOf(5000);
    await visit(songPage("a", "ada"), 1);
    await visit(songPage("b", "ben"), 2);
    expect((await songs.shelf()).map(({ page }) => page.me.id)).toEqual(["ben"]);
    expect(await caches.keys()).toHaveLength(1);
    await songs.forgetAllBut("ben");
    expect(await songs.find("b")).not.toBeNull();
    await songs.forgetAllBut(null);
    expect(await caches.keys()).toEqual([]);
    expect(await songs.find("b")).toBeNull();
  });

  it("are not given out where two persons' lie side by side", async () => {
    const { songs, caches, visit } = shelfOf(5000);
    await visit(songPage("a"), 1);
    await caches.open("liftbook-kept/someone%20else");
    expect(await songs.shelf()).toEqual([]);
  });

  it("of a page that stays open while someone else signs in, or after signing out, take nobody's place", async () => {
    const { songs, visit, caches, server } = shelfOf(5000);
    await visit(songPage("b", "ben"), 1);
    expect(await songs.keepPage(songPage("a", "ada"), 2, signal)).toBe(false);
    await songs.keepPeaks(songPage("a", "ada"), signal);
    expect(await songs.keepRecord(songPage("a", "ada"), signal)).toBe("not-reached");
    expect((await songs.shelf()).map(({ songId }) => songId)).toEqual(["b"]);
    await songs.forgetAllBut(null);
    server.status = 401;
    expect(await songs.keepPage(songPage("b", "ben"), 3, signal)).toBe(false);
    expect(await caches.keys()).toEqual([]);
  });

  it("that are no longer to be had are given up", async () => {
    const { songs, visit, server } = shelfOf(5000);
    await visit(songPage("a"), 1);
    await visit(songPage("b"), 2);
    server.status = 404;
    expect(await songs.keepPage(songPage("a"), 3, signal)).toBe(false);
    expect((await songs.shelf()).map(({ songId }) => songId)).toEqual(["b"]);
  });

  it("whose person signed out while the recording came keep nothing of it", async () => {
    const caches = memoryCaches();
    const songs: KeptSongs = new KeptSongs(caches, async (url, init = {}) => {
      if (url === "/api/songs/a") return Response.json(songPage("a"));
      if (init.method !== "HEAD") await songs.forgetAllBut(null);
      return new Response(init.method === "HEAD" ? null : new Uint8Array(5), {
        headers: { "content-length": "5" },
      });
    });
    await songs.keepPage(songPage("a"), 1, signal);
    expect(await songs.keepRecord(songPage("a"), signal)).toBe("not-reached");
    expect(await caches.keys()).toEqual([]);
  });
});

describe("oldestFirst", () => {
  const song = (songId: string, visitedAtMs: number, byteCount: number) => ({
    songId,
    visitedAtMs,
    byteCount,
  });
  it("leaves all where there is room, and takes only as many as it must", () => {
    const songs = [song("new", 9, 40), song("old", 1, 40), song("older", 0, 10)];
    expect(oldestFirst(songs, 10, 100)).toEqual([]);
    expect(oldestFirst(songs, 20, 100)).toEqual(["older"]);
    expect(oldestFirst(songs, 30, 100)).toEqual(["older", "old"]);
    expect(oldestFirst(songs, 101, 100)).toBeNull();
  });
});
