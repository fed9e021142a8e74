import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as account from "@/app/api/auth/[...all]/route";
import * as bookHearing from "@/app/api/books/[bookId]/hearing/route";
import * as invite from "@/app/api/books/[bookId]/invites/[inviteId]/route";
import * as invites from "@/app/api/books/[bookId]/invites/route";
import * as bookLabels from "@/app/api/books/[bookId]/labels/route";
import * as book from "@/app/api/books/[bookId]/route";
import * as songs from "@/app/api/books/[bookId]/songs/route";
import * as books from "@/app/api/books/route";
import * as offer from "@/app/api/invites/[token]/route";
import * as earCopy from "@/app/api/songs/[songId]/ear/route";
import * as hearing from "@/app/api/songs/[songId]/hearing/route";
import * as songLabels from "@/app/api/songs/[songId]/labels/route";
import * as notes from "@/app/api/songs/[songId]/notes/route";
import * as peaks from "@/app/api/songs/[songId]/peaks/route";
import * as song from "@/app/api/songs/[songId]/route";
import type { BookPage, MadeInvite } from "@/lib/contracts/books";
import { recordRoute } from "@/lib/server/http/recordRoute";
import { openRouteHouse, PASSWORD, type RouteHouse } from "./houseForRoutes";

let house: RouteHouse;
let maker: { cookie: string; userId: string };
let outsider: { cookie: string; userId: string };
let bookId: string;
let songId: string;
let made: MadeInvite;

const NOWHERE = "there-is-no-such-thing";

type Handler = (request: Request, context: { params: Promise<Record<string, string>> }) => Promise<Response>;

function call(
  handler: Handler,
  method: string,
  params: Record<string, string>,
  options: { cookie?: string; body?: unknown; origin?: string | null } = {},
): Promise<Response> {
  return handler(house.request(method, "/api/x", options), { params: Promise.resolve(params) });
}

beforeAll(async () => {
  house = await openRouteHouse();
  maker = await house.signUp("Maker");
  outsider = await house.signUp("Outsider");
  const answer = await call(books.POST, "POST", {}, { cookie: maker.cookie, body: { title: "Hidden" } });
  bookId = ((await answer.json()) as BookPage).id;
  const body = { role: "student", uses: 5, days: 1 };
  made = (await (
    await call(invites.POST, "POST", { bookId }, { cookie: maker.cookie, body })
  ).json()) as MadeInvite;
  songId = randomUUID();
  const sha256 = "0".repeat(64);
  await house.db.blob.create({ data: { sha256, byteCount: 1n, mediaType: "audio/wav" } });
  await house.db.song.create({
    data: {
      id: songId,
      bookId,
      title: "Hidden song",
      recordSha256: sha256,
      durationSec: 1,
      sampleRateHz: 44_100,
      channelCount: 1,
      addedById: maker.userId,
    },
  });
});
afterAll(() => house.close());

interface RouteCase {
  name: string;
  handler: Handler;
  method: string;
  params: (ids: { bookId: string; songId: string }) => Record<string, string>;
  body?: unknown;
}

const inBook = (ids: { bookId: string }) => ({ bookId: ids.bookId });
const ofSong = (ids: { songId: string }) => ({ songId: ids.songId });

const ROUTES: RouteCase[] = [
  { name: "the book", handler: book.GET, method: "GET", params: inBook },
  { name: "its hearing", handler: bookHearing.GET, method: "GET", params: inBook },
  { name: "adding a song", handler: songs.POST, method: "POST", params: inBook, body: "bytes" },
  {
    name: "inviting",
    handler: invites.POST,
    method: "POST",
    params: inBook,
    body: { role: "student", uses: 1, days: 1 },
  },
  {
    name: "taking a link back",
    handler: invite.DELETE,
    method: "DELETE",
    params: (ids) => ({ bookId: ids.bookId, inviteId: made.id }),
  },
  {
    name: "the book's labels",
    handler: bookLabels.POST,
    method: "POST",
    params: inBook,
    body: { kinds: ["note"] },
  },
  {
    name: "a song's labels",
    handler: songLabels.POST,
    method: "POST",
    params: ofSong,
    body: { kinds: ["note"] },
  },
  { name: "a song", handler: song.GET, method: "GET", params: ofSong },
  { name: "renaming a song", handler: song.PATCH, method: "PATCH", params: ofSong, body: { title: "Mine" } },
  { name: "removing a song", handler: song.DELETE, method: "DELETE", params: ofSong },
  { name: "the record", handler: recordRoute, method: "GET", params: ofSong },
  { name: "the band's notes", handler: notes.GET, method: "GET", params: ofSong },
  { name: "the peaks", handler: peaks.GET, method: "GET", params: ofSong },
  { name: "the copy for the ear", handler: earCopy.GET, method: "GET", params: ofSong },
  { name: "having that copy made", handler: earCopy.POST, method: "POST", params: ofSong },
  { name: "hearing again", handler: hearing.POST, method: "POST", params: ofSong },
  { name: "cancelling", handler: hearing.DELETE, method: "DELETE", params: ofSong },
];

async function seen(answer: Response) {
  return { status: answer.status, headers: [...answer.headers], body: await answer.text() };
}

describe("nobody outside a book can see that it exists", () => {
  test.each(ROUTES)("$name: what is hidden and what is not there answer alike", async (route) => {
    const { handler, method, params, body } = route;
    const there = params({ bookId, songId });
    const nowhere = params({ bookId: NOWHERE, songId: NOWHERE });
    const hidden = await seen(await call(handler, method, there, { cookie: outsider.cookie, body }));
    const missing = await seen(await call(handler, method, nowhere, { cookie: outsider.cookie, body }));
    expect(hidden).toEqual(missing);
    expect(hidden.status).toBe(404);
    expect(hidden.body).not.toContain("Hidden");
  });

  test("the member of the book does meet it there", async () => {
    const answer = await call(book.GET, "GET", { bookId }, { cookie: maker.cookie });
    expect(await answer.json()).toMatchObject({ title: "Hidden", songs: [{ title: "Hidden song" }] });
    expect((await call(song.GET, "GET", { songId }, { cookie: maker.cookie })).status).toBe(200);
  });

  test("nothing was changed by what outsiders tried", async () => {
    const stored = await house.db.song.findUniqueOrThrow({
      where: { id: songId },
      include: { hearingRuns: true },
    });
    expect(stored).toMatchObject({ title: "Hidden song", hearingRuns: [] });
    expect(await house.db.invite.findUniqueOrThrow({ where: { id: made.id } })).toMatchObject({
      revokedAt: null,
    });
    const own = await call(books.GET, "GET", {}, { cookie: outsider.cookie });
    expect(await own.json()).toEqual([]);
  });

  test.each(ROUTES)(
    "$name: whoever is not signed in is told only that",
    async ({ handler, method, params, body }) => {
      for (const ids of [
        { bookId, songId },
        { bookId: NOWHERE, songId: NOWHERE },
      ]) {
        const answer = await call(handler, method, params(ids), { body });
        expect(answer.status).toBe(401);
      }
    },
  );

  test("an address that holds what no id holds is not there either", async () => {
    for (const odd of ["a\0b", "../books", "x".repeat(65), "ü"]) {
      const answer = await call(book.GET, "GET", { bookId: odd }, { cookie: maker.cookie });
      expect(answer.status).toBe(404);
    }
  });
});

describe("requests that change something", () => {
  test("are taken from our own pages only", async () => {
    const body = { title: "From elsewhere" };
    for (const origin of ["http://evil.example", "null", "http://127.0.0.1:9"]) {
      const answer = await call(books.POST, "POST", {}, { cookie: maker.cookie, body, origin });
      expect(answer.status).toBe(403);
      expect(await answer.json()).toMatchObject({ error: { code: "wrong-origin" } });
    }
    expect(await house.db.book.count({ where: { title: "From elsewhere" } })).toBe(0);
  });

  test("another site can neither sign anyone in nor out", async () => {
    const body = { email: "maker@example.org", password: PASSWORD };
    const origin = "http://evil.example";
    const signIn = await account.POST(house.request("POST", "/api/auth/sign-in/email", { body, origin }));
    expect([signIn.status, signIn.headers.getSetCookie()]).toEqual([403, []]);
    const signOut = { cookie: maker.cookie, body: {}, origin };
    expect((await account.POST(house.request("POST", "/api/auth/sign-out", signOut))).status).toBe(403);
    expect((await call(books.GET, "GET", {}, { cookie: maker.cookie })).status).toBe(200);
    const own = await account.POST(house.request("POST", "/api/auth/sign-in/email", { body }));
    expect(own.status).toBe(200);
  });

  test("nobody, signed in or not, has the server keep a body of any size in memory", async () => {
    const more = "y".repeat(70_000);
    const body = { email: "maker@example.org", password: PASSWORD, more };
    const signIn = await account.POST(house.request("POST", "/api/auth/sign-in/email", { body }));
    const make = await call(books.POST, "POST", {}, { cookie: maker.cookie, body: { title: "x", more } });
    for (const answer of [signIn, make]) {
      expect(answer.status).toBe(413);
      const { error } = (await answer.json()) as { error: { code: string; message: string } };
      expect(error.code).toBe("body-too-large");
      expect(error.message).toMatch(/larger than 64 KiB.*Nothing was changed/);
    }
  });

  test("what says that it is too large is refused before any of it is read", async () => {
    const { url, headers } = house.request("POST", "/api/books", { cookie: maker.cookie });
    headers.set("content-length", "70000");
    let isRead = false;
    const body = new ReadableStream(
      {
        pull(controller) {
          isRead = true;
          controller.close();
        },
      },
      { highWaterMark: 0 },
    );
    const init: RequestInit & { duplex: "half" } = { method: "POST", headers, body, duplex: "half" };
    const request = new Request(url, init);
    expect((await books.POST(request, { params: Promise.resolve({}) })).status).toBe(413);
    expect(isRead).toBe(false);
  });

  test.each([
    ["no JSON", undefined, /it is not JSON/],
    ["no title", {}, /title/],
    ["an empty title", { title: "   " }, /a title is needed/],
    ["a title that is too long", { title: "x".repeat(121) }, /title/],
    ["a NUL", { title: "a\0b" }, /NUL/],
  ])("with %s are refused in words", async (_what, body, words) => {
    const answer = await call(books.POST, "POST", {}, { cookie: maker.cookie, body });
    expect(answer.status).toBe(400);
    const { error } = (await answer.json()) as { error: { code: string; message: string } };
    expect(error.code).toBe("bad-request");
    expect(error.message).toMatch(words);
    expect(error.message).toMatch(/Nothing was changed/);
  });

  test("a link is read and taken up by whoever is signed in", async () => {
    const token = made.url.split("/").at(-1)!;
    const read = await call(offer.GET, "GET", { token }, { cookie: outsider.cookie });
    expect(await read.json()).toEqual({ bookTitle: "Hidden", role: "student", madeByName: "Maker" });
    const taken = await call(offer.POST, "POST", { token }, { cookie: outsider.cookie });
    expect(await taken.json()).toEqual({ bookId });
    expect((await call(book.GET, "GET", { bookId }, { cookie: outsider.cookie })).status).toBe(200);
    const over = await call(offer.GET, "GET", { token: NOWHERE }, { cookie: outsider.cookie });
    expect(over.status).toBe(410);
  });
});
