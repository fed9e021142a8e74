import { once } from "node:events";
import { writeFile } from "node:fs/promises";
import { createServer, get, type IncomingMessage, type RequestOptions, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Readable } from "node:stream";
import pino from "pino";
import { afterAll, beforeAll, expect, test } from "vitest";
import { api } from "@/lib/contracts/api";
import type { Auth } from "@/lib/server/auth/auth";
import { openHouse } from "@/lib/server/house";
import { recordAskedFor, sendRecord } from "@/lib/server/http/recordRoute";
import { addSong } from "@/lib/server/services/addSong";
import { until } from "../sync/hubHarness";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";
import { toneFile } from "./toneFile";

const tone = toneFile(20);
let house: SongHouse;
let server: Server;
let songId: string;
/** Every stream of a record's bytes that was opened. */
const opened: Readable[] = [];

beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar });
  const path = join(house.config.dataFolder, "tone.wav");
  await writeFile(path, tone);
  songId = (await addSong(house, house.student, house.bookId, { path, fileName: "a.wav" })).id;
  const { userId, name, email } = house.listener;
  const getSession = async ({ headers }: { headers: Headers }) =>
    headers.get("cookie") === "listener" ? { user: { id: userId, name, email } } : null;
  const blobs = {
    ...house.blobs,
    openRange(sha256: string, start: number, end: number) {
      const stream = house.blobs.openRange(sha256, start, end);
      opened.push(stream);
      return stream;
    },
  };
  const auth = { api: { getSession } } as unknown as Auth;
  openHouse({ ...house, blobs, auth, log: pino({ level: "silent" }), origins: ["http://liftbook.test"] });
  server = createServer((req, res) => void sendRecord(recordAskedFor(req) ?? "", req, res));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
});
afterAll(async () => {
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
  await house.close();
});

async function ask({ headers = {}, ...options }: RequestOptions = {}): Promise<IncomingMessage> {
  const { port } = server.address() as AddressInfo;
  const request = get({
    port,
    path: api.record(songId),
    headers: { cookie: "listener", ...headers },
    ...options,
  });
  return ((await once(request, "response")) as [IncomingMessage])[0];
}

async function bytesOf(answer: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of answer) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

test("every answer says how long it is, and is that long", async () => {
  const whole = await ask();
  expect([whole.statusCode, whole.headers["content-length"]]).toEqual([200, String(tone.length)]);
  expect((await bytesOf(whole)).equals(tone)).toBe(true);

  const part = await ask({ headers: { range: "bytes=1000-1999" } });
  expect([part.statusCode, part.headers["content-length"]]).toEqual([206, "1000"]);
  expect(part.headers["content-range"]).toBe(`bytes 1000-1999/${tone.length}`);
  expect((await bytesOf(part)).equals(tone.subarray(1000, 2000))).toBe(true);

  const head = await ask({ method: "HEAD" });
  expect([head.statusCode, head.headers["content-length"]]).toEqual([200, String(tone.length)]);
  expect((await bytesOf(head)).length).toBe(0);

  const none = await ask({ headers: { range: `bytes=${tone.length}-` } });
  expect([none.statusCode, none.headers["content-range"]]).toEqual([416, `bytes */${tone.length}`]);
  const same = await ask({ headers: { "if-none-match": whole.headers.etag } });
  expect([same.statusCode, (await bytesOf(same)).length]).toEqual([304, 0]);
});

test("whoever is not signed in gets words", async () => {
  const answer = await ask({ headers: { cookie: "nobody" } });
  expect(answer.statusCode).toBe(401);
  expect(JSON.parse(String(await bytesOf(answer)))).toMatchObject({ error: { code: "not-signed-in" } });
});

test("a player that goes away half-way leaves no file open", async () => {
  for (let i = 0; i < 20; i++) {
    const answer = await ask();
    await once(answer, "readable");
    answer.destroy();
  }
  await until("every file is closed", () => opened.every((stream) => stream.closed));
  expect(opened.length).toBeGreaterThanOrEqual(20);
  expect((await bytesOf(await ask())).length).toBe(tone.length);
});

test("only reading the very address of a record is answered so", () => {
  expect(recordAskedFor({ method: "GET", url: "/api/songs/abc/record" })).toBe("abc");
  expect(recordAskedFor({ method: "HEAD", url: "/api/songs/abc/record?v=1" })).toBe("abc");
  for (const url of ["/api/songs/abc/records", "/api/songs/a/b/record", "/api/songs/abc", "//", undefined])
    expect(recordAskedFor({ method: "GET", url })).toBeNull();
  expect(recordAskedFor({ method: "POST", url: "/api/songs/abc/record" })).toBeNull();
});
