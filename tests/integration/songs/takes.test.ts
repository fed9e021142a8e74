import { readdir } from "node:fs/promises";
import { join } from "node:path";
import pino from "pino";
import { afterAll, beforeAll, expect, test } from "vitest";
import { POST as addSong } from "@/app/api/books/[bookId]/songs/route";
import { DELETE as removeSong } from "@/app/api/songs/[songId]/route";
import { PUT as judge } from "@/app/api/songs/[songId]/takes/[takeId]/judged/route";
import { GET as getPeaks } from "@/app/api/songs/[songId]/takes/[takeId]/peaks/route";
import { PUT as put, DELETE as remove } from "@/app/api/songs/[songId]/takes/[takeId]/route";
import { PUT as share, DELETE as unshare } from "@/app/api/songs/[songId]/takes/[takeId]/sharing/route";
import { GET as getSound } from "@/app/api/songs/[songId]/takes/[takeId]/sound/route";
import { GET as list } from "@/app/api/songs/[songId]/takes/route";
import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import { decodePeaks } from "@/lib/contracts/peaks";
import type { NewTake } from "@/lib/contracts/takeSchemas";
import { TAKE_HEADER, type Take } from "@/lib/contracts/takes";
import { UPLOAD_HEADERS } from "@/lib/contracts/uploads";
import type { Auth } from "@/lib/server/auth/auth";
import type { Actor } from "@/lib/server/auth/session";
import { openHouse } from "@/lib/server/house";
import { judgedStroke, judgedTake } from "../../unit/client/takes/judgedTakes";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";
import { toneFile } from "./toneFile";

const ORIGIN = "http://liftbook.test";
type Route = (request: Request, context: { params: Promise<Record<string, string>> }) => Promise<Response>;

let house: SongHouse;
let songId: string;
/** To whom it was said that takes have changed; null for everyone on the song's page. */
const told: (string | null)[] = [];

beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar });
  const people = [house.maker, house.student, house.listener, house.outsider];
  const getSession = async ({ headers }: { headers: Headers }) => {
    const person = people.find(({ userId }) => userId === headers.get("x-user"));
    return person ? { user: { id: person.userId, name: person.name, email: person.email } } : null;
  };
  const auth = { api: { getSession } } as unknown as Auth;
  const hub = {
    ...house.hub,
    announceTakes: (_songId: string, userId?: string) => void told.push(userId ?? null),
  };
  openHouse({ ...house, hub, auth, log: pino({ level: "silent" }), origins: [ORIGIN] });
  songId = await addedSong();
});
afterAll(() => house.close());

interface Ask {
  as: Actor;
  method?: string;
  headers?: Record<string, string>;
  body?: BodyInit;
  take?: string;
  song?: string;
  signal?: AbortSignal;
}

function ask(handler: Route, { as, method = "GET", headers = {}, body, take, song = songId, signal }: Ask) {
  const init: RequestInit & { duplex: "half" } = {
    method,
    headers: { origin: ORIGIN, "x-user": as.userId, ...headers },
    body,
    duplex: "half",
    signal,
  };
  const params = { songId: song, ...(take === undefined ? {} : { takeId: take }) };
  return handler(new Request(`${ORIGIN}/`, init), { params: Promise.resolve(params) });
}

async function addedSong(): Promise<string> {
  const response = await addSong(
    new Request(`${ORIGIN}${api.songs(house.bookId)}`, {
      method: "POST",
      headers: {
        origin: ORIGIN,
        "x-user": house.maker.userId,
        "content-type": "audio/wav",
        [UPLOAD_HEADERS.fileName]: "a.wav",
      },
      body: new Uint8Array(toneFile(1)),
    }),
    { params: Promise.resolve({ bookId: house.bookId }) },
  );
  return ((await response.json()) as SongRow).id;
}

const ABOUT: Omit<NewTake, "ownerId"> = {
  partId: null,
  startSec: 0.25,
  endSec: 0.75,
  speed: 0.5,
  shiftCents: -14,
  leadSec: 0.2,
  delaySec: 0.03,
  madeAtMs: 1_790_000_000_000,
};

/** A take of its own sound each time. */
let made = 0;
const sound = (durationSec = 1.5) => {
  made++;
  return new Uint8Array(toneFile(durationSec, { level: 0.2 + made / 1000 }));
};

/** The same samples, said to be at another rate. */
function atRate(wav: Uint8Array<ArrayBuffer>, sampleRateHz: number): Uint8Array<ArrayBuffer> {
  new DataView(wav.buffer).setUint32(24, sampleRateHz, true);
  return wav;
}

function send(as: Actor, take: string, bytes: Uint8Array<ArrayBuffer>, about: object = ABOUT, song = songId) {
  const headers = {
    [TAKE_HEADER]: encodeURIComponent(JSON.stringify({ ownerId: as.userId, ...about })),
    "content-length": String(bytes.length),
  };
  return ask(put, { as, method: "PUT", take, song, headers, body: bytes });
}

const codeOf = async (response: Response) => [
  response.status,
  ((await response.json()) as { error: { code: string } }).error.code,
];
const takesOf = async (as: Actor, song = songId) => (await (await ask(list, { as, song })).json()) as Take[];
const idsOf = async (as: Actor, song = songId) => (await takesOf(as, song)).map(({ id }) => id);
const waiting = () => readdir(join(house.config.dataFolder, "incoming"));

test("a take is its owner's, who may be a listener, and nobody else's", async () => {
  const bytes = sound();
  told.length = 0;
  const kept = (await (await send(house.listener, "own", bytes)).json()) as Take;
  expect(kept).toMatchObject({
    id: "own",
    songId,
    ownerId: house.listener.userId,
    ownerName: "Listener",
    isOwn: true,
    ...ABOUT,
    sampleRateHz: 8_000,
    channelCount: 1,
    durationSec: 1.5,
    byteCount: bytes.length,
    isShared: false,
    judged: null,
  });
  expect(await takesOf(house.listener)).toEqual([kept]);
  // That there is one at all is told to its owner alone.
  expect(told).toEqual([house.listener.userId]);

  for (const other of [house.maker, house.student]) {
    expect(await takesOf(other)).toEqual([]);
    for (const [handler, method] of [
      [getSound, "GET"],
      [getPeaks, "GET"],
      [share, "PUT"],
      [unshare, "DELETE"],
      [remove, "DELETE"],
    ] as const)
      expect(await codeOf(await ask(handler, { as: other, method, take: "own" }))).toEqual([
        404,
        "not-found",
      ]);
  }
  expect(await codeOf(await ask(list, { as: house.outsider }))).toEqual([404, "not-found"]);
  expect(await codeOf(await send(house.outsider, "out", sound()))).toEqual([404, "not-found"]);
  // A page that stands open while somebody else signs in.
  const listeners = { ...ABOUT, ownerId: house.listener.userId };
  expect(await codeOf(await send(house.student, "theirs", sound(), listeners))).toEqual([
    401,
    "not-signed-in",
  ]);
});

test("its sound and its waveform come by ranges", async () => {
  const bytes = sound();
  await send(house.student, "ranged", bytes);
  const part = await ask(getSound, {
    as: house.student,
    take: "ranged",
    headers: { range: "bytes=44-1043" },
  });
  expect(part.status).toBe(206);
  expect(Buffer.from(await part.arrayBuffer()).equals(Buffer.from(bytes.subarray(44, 1044)))).toBe(true);
  const peaks = decodePeaks(
    new Uint8Array(await (await ask(getPeaks, { as: house.student, take: "ranged" })).arrayBuffer()),
  );
  expect(peaks).toMatchObject({ sampleRateHz: 8_000, frameCount: 12_000 });
  expect(Math.max(...peaks.zooms.at(-1)!.pairs)).toBeGreaterThan(5);
});

test("shared by its owner's act it is heard by members, and kept to oneself again it is not", async () => {
  await send(house.student, "lent", sound());
  told.length = 0;
  const shared = (await (
    await ask(share, { as: house.student, method: "PUT", take: "lent" })
  ).json()) as Take;
  expect(shared.isShared).toBe(true);
  expect(told).toEqual([null]);
  for (const other of [house.maker, house.listener]) {
    expect((await takesOf(other)).find(({ id }) => id === "lent")).toMatchObject({
      isOwn: false,
      ownerName: "Student",
      isShared: true,
    });
    expect((await ask(getSound, { as: other, take: "lent" })).status).toBe(200);
    // To hear it is not to have it.
    expect(await codeOf(await ask(remove, { as: other, method: "DELETE", take: "lent" }))).toEqual([
      404,
      "not-found",
    ]);
    expect(await codeOf(await ask(unshare, { as: other, method: "DELETE", take: "lent" }))).toEqual([
      404,
      "not-found",
    ]);
  }
  expect(await codeOf(await ask(getSound, { as: house.outsider, take: "lent" }))).toEqual([404, "not-found"]);

  const etag = (await ask(getSound, { as: house.maker, take: "lent" })).headers.get("etag")!;
  await ask(unshare, { as: house.student, method: "DELETE", take: "lent" });
  expect(await idsOf(house.maker)).not.toContain("lent");
  // What a browser has kept of it is not given out again either.
  const again = await ask(getSound, {
    as: house.maker,
    take: "lent",
    headers: { "if-none-match": etag },
  });
  expect(await codeOf(again)).toEqual([404, "not-found"]);
});

test("shared takes of who has left the book are heard no longer", async () => {
  const { bookId, student } = house;
  await send(student, "left", sound());
  await ask(share, { as: student, method: "PUT", take: "left" });
  expect(await idsOf(house.maker)).toContain("left");
  const where = { bookId_userId: { bookId, userId: student.userId } };
  await house.db.member.delete({ where });
  expect(await idsOf(house.maker)).not.toContain("left");
  expect(await codeOf(await ask(getSound, { as: house.maker, take: "left" }))).toEqual([404, "not-found"]);
  expect(await codeOf(await ask(getSound, { as: student, take: "left" }))).toEqual([404, "not-found"]);
  await house.db.member.create({ data: { bookId, userId: student.userId, role: "student" } });
  expect(await idsOf(house.maker)).toContain("left");
});

test("what a browser found of it is kept, for those who hear it too", async () => {
  await send(house.student, "judged", sound());
  await ask(share, { as: house.student, method: "PUT", take: "judged" });
  const judged = judgedTake([judgedStroke("e", 0.3, { lateSec: 0.12 })]);
  const tell = (as: Actor, body: unknown) =>
    ask(judge, { as, method: "PUT", take: "judged", body: JSON.stringify(body) });
  expect(((await (await tell(house.student, judged)).json()) as Take).judged).toEqual(judged);
  expect((await takesOf(house.maker)).find(({ id }) => id === "judged")?.judged).toEqual(judged);
  expect(await codeOf(await tell(house.maker, judged))).toEqual([404, "not-found"]);
  expect(await codeOf(await tell(house.student, { strokes: [] }))).toEqual([400, "bad-request"]);
  // Others draw it: what has no strokes to draw is none.
  expect(await codeOf(await tell(house.student, { isClean: true }))).toEqual([400, "bad-request"]);
});

test("what was found of ten minutes of quick playing is kept whole, and more than that is not read", async () => {
  await send(house.student, "long", sound());
  const ofStrokes = (count: number) =>
    judgedTake(Array.from({ length: count }, (_, at) => judgedStroke(`event-${at}`, at / 10)));
  const tell = (body: unknown) =>
    ask(judge, { as: house.student, method: "PUT", take: "long", body: JSON.stringify(body) });
  const judged = ofStrokes(6_000);
  expect(((await (await tell(judged)).json()) as Take).judged).toEqual(judged);
  expect(await codeOf(await tell(ofStrokes(20_000)))).toEqual([413, "body-too-large"]);
  expect((await takesOf(house.student)).find(({ id }) => id === "long")?.judged).toEqual(judged);
});

test("sent twice it is kept once; another's name, another song's and bad sounds are refused", async () => {
  const bytes = sound();
  await send(house.student, "twice", bytes);
  const again = await send(house.student, "twice", bytes);
  expect([again.status, ((await again.json()) as Take).id]).toEqual([200, "twice"]);
  const both = await Promise.all([1, 2, 3].map(() => send(house.student, "at-once", sound())));
  expect(both.map(({ status }) => status)).toEqual([200, 200, 200]);
  expect((await idsOf(house.student)).filter((id) => id === "twice" || id === "at-once")).toHaveLength(2);
  expect(await codeOf(await send(house.maker, "twice", sound()))).toEqual([404, "not-found"]);

  const refused: [Promise<Response>, number, string][] = [
    [send(house.student, "bad", new Uint8Array(0)), 422, "take-damaged"],
    [
      send(
        house.student,
        "bad",
        new Uint8Array(Buffer.from("not a sound, but long enough to be one, surely")),
      ),
      422,
      "take-damaged",
    ],
    [send(house.student, "bad", sound().subarray(0, 9_000)), 422, "take-damaged"],
    [send(house.student, "bad", atRate(sound(), 3_000_000_000)), 422, "take-damaged"],
    [
      send(house.student, "bad", new Uint8Array(toneFile(601, { sampleRateHz: 8_000 }))),
      413,
      "take-too-long",
    ],
    [send(house.student, "bad", sound(), { ...ABOUT, endSec: 0.1 }), 400, "bad-request"],
    [send(house.student, "bad", sound(), { ...ABOUT, speed: "fast" }), 400, "bad-request"],
    [ask(put, { as: house.student, method: "PUT", take: "bad", body: sound() }), 400, "bad-request"],
  ];
  for (const [answer, status, code] of refused) expect(await codeOf(await answer)).toEqual([status, code]);
  expect(await idsOf(house.student)).not.toContain("bad");
  expect(await waiting()).toEqual([]);
});

test("a sending that breaks off leaves nothing behind, and can be done again", async () => {
  const bytes = sound();
  const headers = {
    [TAKE_HEADER]: encodeURIComponent(JSON.stringify({ ownerId: house.student.userId, ...ABOUT })),
    "content-length": String(bytes.length),
  };
  const breaking = (end: "error" | "close") =>
    new ReadableStream<Uint8Array>({
      start(controller) {
        controller.enqueue(bytes.subarray(0, 5_000));
        if (end === "error") controller.error(new Error("the line broke"));
        else controller.close();
      },
    });
  for (const end of ["error", "close"] as const) {
    const answer = await ask(put, {
      as: house.student,
      method: "PUT",
      take: "broken",
      headers,
      body: breaking(end),
    });
    expect(await codeOf(answer)).toEqual([400, "upload-broken"]);
  }
  expect(await waiting()).toEqual([]);
  expect(await idsOf(house.student)).not.toContain("broken");
  expect((await send(house.student, "broken", bytes)).status).toBe(200);
});

test("its sound goes with it, but not where another take is the same bytes", async () => {
  const bytes = sound();
  await send(house.student, "one", bytes);
  await send(house.listener, "two", bytes);
  const { sha256 } = await house.db.take.findUniqueOrThrow({ where: { id: "one" } });
  expect((await ask(remove, { as: house.student, method: "DELETE", take: "one" })).status).toBe(204);
  expect(await idsOf(house.student)).not.toContain("one");
  expect(await house.blobs.byteCount(sha256)).toBe(bytes.length);
  expect((await ask(getSound, { as: house.listener, take: "two" })).status).toBe(200);
  await ask(remove, { as: house.listener, method: "DELETE", take: "two" });
  await expect(house.blobs.byteCount(sha256)).rejects.toThrow();
  expect(await house.db.blob.count({ where: { sha256 } })).toBe(0);
  expect(await house.db.peaks.count({ where: { sha256 } })).toBe(0);
});

test("a song that is removed takes everyone's takes with it", async () => {
  const song = await addedSong();
  await send(house.student, "gone-1", sound(), ABOUT, song);
  await send(house.listener, "gone-2", sound(), ABOUT, song);
  const names = (await house.db.take.findMany({ where: { songId: song } })).map(({ sha256 }) => sha256);
  expect(names).toHaveLength(2);
  // The record itself stays: the first song has the same bytes.
  expect((await ask(removeSong, { as: house.maker, method: "DELETE", song })).status).toBe(204);
  expect(await house.db.take.count({ where: { songId: song } })).toBe(0);
  for (const sha256 of names) await expect(house.blobs.byteCount(sha256)).rejects.toThrow();
  expect(await codeOf(await send(house.student, "gone-3", sound(), ABOUT, song))).toEqual([404, "not-found"]);
});
