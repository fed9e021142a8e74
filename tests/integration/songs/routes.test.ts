import { readdir } from "node:fs/promises";
import { join } from "node:path";
import pino from "pino";
import { afterAll, beforeAll, expect, test } from "vitest";
import { GET as bookHearing } from "@/app/api/books/[bookId]/hearing/route";
import { POST as addSong } from "@/app/api/books/[bookId]/songs/route";
import { DELETE as cancel, POST as hearAgain } from "@/app/api/songs/[songId]/hearing/route";
import { GET as getPeaks } from "@/app/api/songs/[songId]/peaks/route";
import { GET as getSong, DELETE as remove, PATCH as rename } from "@/app/api/songs/[songId]/route";
import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import { UPLOAD_HEADERS } from "@/lib/contracts/uploads";
import type { Auth } from "@/lib/server/auth/auth";
import { openHouse } from "@/lib/server/house";
import { recordRoute } from "@/lib/server/http/recordRoute";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";
import { toneFile } from "./toneFile";

const ORIGIN = "http://liftbook.test";
type Route = (request: Request, context: { params: Promise<Record<string, string>> }) => Promise<Response>;

let house: SongHouse;
beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar, env: { LIFTBOOK_MAX_UPLOAD_MB: "1" } });
  const people = [house.maker, house.student, house.listener, house.outsider];
  // Who asks stands in a header here; the real sessions are checked with the accounts.
  const getSession = async ({ headers }: { headers: Headers }) => {
    const person = people.find(({ userId }) => userId === headers.get("x-user"));
    return person ? { user: { id: person.userId, name: person.name, email: person.email } } : null;
  };
  const auth = { api: { getSession } } as unknown as Auth;
  openHouse({ ...house, auth, log: pino({ level: "silent" }), origins: [ORIGIN] });
});
afterAll(() => house.close());

interface Ask {
  as?: string;
  method?: string;
  headers?: Record<string, string>;
  body?: BodyInit;
  params: Record<string, string>;
}

function ask(
  handler: Route,
  path: string,
  { as, method = "GET", headers = {}, body, params }: Ask,
): Promise<Response> {
  const init: RequestInit & { duplex: "half" } = {
    method,
    headers: { origin: ORIGIN, ...(as ? { "x-user": as } : {}), ...headers },
    body,
    duplex: "half",
  };
  return handler(new Request(`${ORIGIN}${path}`, init), { params: Promise.resolve(params) });
}

const tone = toneFile(1);

function upload(
  bytes: Uint8Array<ArrayBuffer>,
  as: string | undefined,
  headers: Record<string, string> = {},
) {
  return ask(addSong, api.songs(house.bookId), {
    as,
    method: "POST",
    body: bytes,
    headers: { "content-type": "audio/wav", [UPLOAD_HEADERS.fileName]: "caf%C3%A9.wav", ...headers },
    params: { bookId: house.bookId },
  });
}

const codeOf = async (response: Response) => [
  response.status,
  ((await response.json()) as { error: { code: string } }).error.code,
];

test("the way of a song through its routes", async () => {
  const added = await upload(new Uint8Array(tone), house.student.userId);
  expect(added.status).toBe(201);
  const row = (await added.json()) as SongRow;
  expect(row.title).toBe("café");
  const params = { songId: row.id };
  const as = house.student.userId;

  const page = await ask(getSong, api.song(row.id), { as: house.listener.userId, params });
  expect(await page.json()).toMatchObject({ title: "café", recordUrl: api.record(row.id), role: "listener" });
  const range = { range: "bytes=0-3" };
  const part = await ask(recordRoute, api.record(row.id), {
    as: house.listener.userId,
    params,
    headers: range,
  });
  expect([part.status, await part.text()]).toEqual([206, "RIFF"]);
  const head = await ask(recordRoute, api.record(row.id), { as, method: "HEAD", params });
  expect(head.headers.get("content-length")).toBe(String(tone.length));
  expect(await codeOf(await ask(getPeaks, api.peaks(row.id), { as, params }))).toEqual([404, "not-found"]);

  const renamed = await ask(rename, api.song(row.id), {
    as,
    method: "PATCH",
    body: '{"title":" New "}',
    params,
  });
  expect(await renamed.json()).toMatchObject({ id: row.id, title: "New" });
  const again = await ask(hearAgain, api.hearing(row.id), { as, method: "POST", params });
  expect(await codeOf(again)).toEqual([409, "already-hearing"]);
  const cancelled = await ask(cancel, api.hearing(row.id), { as, method: "DELETE", params });
  expect(await cancelled.json()).toMatchObject({ state: "cancelled" });
  const ofBook = await ask(bookHearing, api.bookHearing(house.bookId), {
    as,
    params: { bookId: house.bookId },
  });
  expect(await ofBook.json()).toMatchObject({ [row.id]: { state: "cancelled" } });
  const removed = await ask(remove, api.song(row.id), { as, method: "DELETE", params });
  expect(removed.status).toBe(204);
});

test("refusals carry their status and words", async () => {
  const bytes = new Uint8Array(tone);
  expect(await codeOf(await upload(bytes, undefined))).toEqual([401, "not-signed-in"]);
  expect(await codeOf(await upload(bytes, house.outsider.userId))).toEqual([404, "not-found"]);
  expect(await codeOf(await upload(bytes, house.listener.userId))).toEqual([403, "not-allowed"]);
  const maker = house.maker.userId;
  expect(await codeOf(await upload(bytes, maker, { origin: "http://elsewhere.test" }))).toEqual([
    403,
    "wrong-origin",
  ]);
  expect(await codeOf(await upload(bytes, maker, { "content-length": "1000001" }))).toEqual([
    413,
    "too-large",
  ]);
  expect(await codeOf(await upload(bytes, maker, { [UPLOAD_HEADERS.fileName]: "%" }))).toEqual([
    400,
    "bad-request",
  ]);
  expect(await codeOf(await upload(bytes, maker, { "content-type": "image/png" }))).toEqual([
    422,
    "wrong-type",
  ]);
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);
  expect(await house.db.song.count()).toBe(0);
});
