import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import pino from "pino";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { GET as getWeights } from "@/app/api/ear/[sha256]/route";
import { GET as getListing } from "@/app/api/ear/route";
import { GET as getCopy, POST as wantCopy } from "@/app/api/songs/[songId]/ear/route";
import { api } from "@/lib/contracts/api";
import type { EarListing } from "@/lib/contracts/ear";
import { decodeEarCopyHead, decodeFrames, type EarCopyStatus } from "@/lib/contracts/earCopy";
import type { Auth } from "@/lib/server/auth/auth";
import type { Actor } from "@/lib/server/auth/session";
import { openEarFiles } from "@/lib/server/hearing/earFiles";
import { readWeightFile } from "@/lib/server/hearing/weightFiles";
import { openHouse } from "@/lib/server/house";
import { makeEarCopy } from "@/lib/server/media/earCopy";
import { addUploadedSong } from "@/lib/server/services/addSong";
import { removeSong } from "@/lib/server/services/removeSong";
import { forgetAllUnused } from "@/lib/server/storage/blobRows";
import { createEarCopies } from "@/lib/server/storage/earCopies";
import { endlessEar, openSongHouse, refusal, type SongHouse } from "./songHouse";
import { asAiff, toneFile } from "./toneFile";

const ORIGIN = "http://liftbook.test";
type Route = (request: Request, context: { params: Promise<Record<string, string>> }) => Promise<Response>;

let house: SongHouse;
let made = 0;
let broken = false;
beforeAll(async () => {
  house = await openSongHouse({
    hear: endlessEar,
    makeEarCopy: (...order) => {
      made++;
      return broken ? Promise.reject(new Error("the disk is full")) : makeEarCopy(...order);
    },
  });
  const people = [house.maker, house.student, house.listener, house.outsider];
  const getSession = async ({ headers }: { headers: Headers }) => {
    const person = people.find(({ userId }) => userId === headers.get("x-user"));
    return person ? { user: { id: person.userId, name: person.name, email: person.email } } : null;
  };
  const auth = { api: { getSession } } as unknown as Auth;
  openHouse({ ...house, auth, log: pino({ level: "silent" }), origins: [ORIGIN] });
});
afterAll(() => house.close());
beforeEach(() => {
  made = 0;
  broken = false;
});

function ask(
  handler: Route,
  path: string,
  as: Actor | null,
  params: Record<string, string>,
  more: RequestInit = {},
) {
  const headers = { origin: ORIGIN, ...(as ? { "x-user": as.userId } : {}), ...more.headers };
  return handler(new Request(`${ORIGIN}${path}`, { ...more, headers }), { params: Promise.resolve(params) });
}
const want = (songId: string, as: Actor = house.listener) =>
  ask(wantCopy, api.earCopy(songId), as, { songId }, { method: "POST" });
const get = (songId: string, range?: string, as: Actor | null = house.listener) =>
  ask(getCopy, api.earCopy(songId), as, { songId }, range ? { headers: { range } } : {});
const codeOf = async (response: Response) => [
  response.status,
  ((await response.json()) as { error: { code: string } }).error.code,
];

async function addSong(file: Buffer, fileName = "tones.wav"): Promise<string> {
  async function* body(): AsyncGenerator<Uint8Array> {
    yield file;
  }
  const record = { body: body(), byteCount: file.length, fileName };
  return (await addUploadedSong(house, house.maker, house.bookId, record)).id;
}

async function untilReady(songId: string): Promise<EarCopyStatus[]> {
  const said: EarCopyStatus[] = [];
  for (const end = Date.now() + 30_000; Date.now() < end; ) {
    const answer = await want(songId);
    expect(answer.status).toBe(200);
    const status = (await answer.json()) as EarCopyStatus;
    said.push(status);
    if (status.state === "ready") return said;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error("the copy was never ready");
}

/** The first answer to {@link want} that is no status. */
async function nextUnlike200(songId: string): Promise<Response> {
  for (const end = Date.now() + 30_000; Date.now() < end; ) {
    const answer = await want(songId);
    if (answer.status !== 200) return answer;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error("the copy was asked for in vain");
}

test("a copy is made once when it is asked for, and given to members by ranges", async () => {
  const songId = await addSong(toneFile(3));
  expect(await codeOf(await get(songId))).toEqual([404, "no-ear-copy"]);
  const [one, other] = await Promise.all([untilReady(songId), untilReady(songId)]);
  expect(one[0]).toMatchObject({ state: "making" });
  expect(one.at(-1)).toEqual({ state: "ready", fraction: 1 });
  expect(other.at(-1)).toEqual({ state: "ready", fraction: 1 });
  expect(made).toBe(1);
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);

  const whole = new Uint8Array(await (await get(songId)).arrayBuffer());
  const head = decodeEarCopyHead(whole);
  expect(head).toMatchObject({ channelCount: 1, sampleRateHz: 22_050, frameCount: 3 * 22_050 });
  expect(whole.length).toBe(32 + 2 * head.frameCount);
  const [samples] = decodeFrames(whole.subarray(32), head);
  const level = Math.sqrt(samples!.reduce((sum, value) => sum + value * value, 0) / samples!.length);
  expect(level).toBeCloseTo(head.level, 2);

  const part = await get(songId, "bytes=32-131");
  expect([part.status, part.headers.get("content-range")]).toEqual([206, `bytes 32-131/${whole.length}`]);
  expect(part.headers.get("cache-control")).toMatch(/private/);
  expect(new Uint8Array(await part.arrayBuffer())).toEqual(whole.subarray(32, 132));
  const past = await get(songId, `bytes=${whole.length}-`);
  expect(past.status).toBe(416);
});

test("nobody but members is given it, or has it made", async () => {
  const songId = await addSong(toneFile(1));
  expect(await codeOf(await want(songId, house.outsider))).toEqual([404, "not-found"]);
  expect(made).toBe(0);
  await untilReady(songId);
  expect(await codeOf(await get(songId, "bytes=0-31", house.outsider))).toEqual([404, "not-found"]);
  expect(await codeOf(await get(songId, "bytes=0-31", null))).toEqual([401, "not-signed-in"]);
});

test("a song whose record browsers do not play has one too, of the record itself", async () => {
  const songId = await addSong(asAiff(toneFile(1)), "tones.aiff");
  await untilReady(songId);
  const head = decodeEarCopyHead(new Uint8Array(await (await get(songId, "bytes=0-31")).arrayBuffer()));
  expect(head.frameCount).toBe(22_050);
});

test("a copy that was removed is made anew, the same to the last byte; a failure is told and can be tried again", async () => {
  const songId = await addSong(toneFile(2, { level: 0.3 }));
  await untilReady(songId);
  const first = await get(songId);
  const etag = first.headers.get("etag")!;
  const { recordSha256 } = await house.db.song.findUniqueOrThrow({ where: { id: songId } });
  await rm(await house.blobs.pathOf(etag.slice(1, -1)));
  expect(await codeOf(await get(songId))).toEqual([404, "no-ear-copy"]);

  broken = true;
  expect(await (await want(songId)).json()).toEqual({ state: "making", fraction: 0 });
  expect(await codeOf(await nextUnlike200(songId))).toEqual([500, "ear-copy-failed"]);
  broken = false;
  await untilReady(songId);
  expect((await get(songId)).headers.get("etag")).toBe(etag);

  await house.db.earCopy.delete({ where: { recordSha256 } });
  await untilReady(songId);
  expect((await get(songId)).headers.get("etag")).toBe(etag);
});

test("a failure is not told where a hearing has made the copy since", async () => {
  const songId = await addSong(toneFile(1, { level: 0.35 }));
  const { recordSha256 } = await house.db.song.findUniqueOrThrow({ where: { id: songId } });
  const copies = createEarCopies({
    ...house,
    log: pino({ level: "silent" }),
    make: () => Promise.reject(new Error("the disk is full")),
  });
  expect(await copies.want(recordSha256)).toMatchObject({ state: "making" });
  await copies.stop();
  await untilReady(songId);
  expect(await copies.want(recordSha256)).toEqual({ state: "ready", fraction: 1 });
});

test("it goes with the last song of its record, and not before", async () => {
  const file = toneFile(1, { level: 0.2 });
  const [one, other] = [await addSong(file), await addSong(file)];
  await untilReady(one);
  expect((await untilReady(other)).length).toBe(1);
  const sha256 = (await get(one)).headers.get("etag")!.slice(1, -1);
  const path = await house.blobs.pathOf(sha256);
  await removeSong(house, house.maker, one);
  expect((await get(other)).status).toBe(200);
  await removeSong(house, house.maker, other);
  expect(existsSync(path)).toBe(false);
  expect(await house.db.blob.count({ where: { sha256 } })).toBe(0);
  expect(await house.db.earCopy.count({ where: { sha256 } })).toBe(0);
});

test("what a server had not forgotten when it was killed is forgotten at the next start, and nothing else", async () => {
  const [gone, kept] = [
    await addSong(toneFile(1, { level: 0.15 })),
    await addSong(toneFile(1, { level: 0.6 })),
  ];
  await untilReady(gone);
  await untilReady(kept);
  const { recordSha256 } = await house.db.song.findUniqueOrThrow({ where: { id: gone } });
  const copySha256 = (await get(gone)).headers.get("etag")!.slice(1, -1);
  const paths = await Promise.all([recordSha256, copySha256].map((sha256) => house.blobs.pathOf(sha256)));
  const remove = () => Promise.reject(new Error("killed"));
  const killed = { ...house, blobs: { ...house.blobs, remove } };
  await expect(removeSong(killed, house.maker, gone)).rejects.toThrow("killed");
  expect(paths.map((path) => existsSync(path))).toEqual([true, true]);

  await forgetAllUnused(house.db, house.blobs);
  expect(paths.map((path) => existsSync(path))).toEqual([false, false]);
  expect(await house.db.blob.count({ where: { sha256: { in: [recordSha256, copySha256] } } })).toBe(0);
  expect((await get(kept)).status).toBe(200);
});

test("of two records that sound alike the copy stays for as long as one is there", async () => {
  const wav = toneFile(1, { level: 0.4 });
  const [one, other] = [await addSong(wav), await addSong(asAiff(wav), "tones.aiff")];
  await untilReady(one);
  await untilReady(other);
  const etagOf = async (songId: string) => (await get(songId)).headers.get("etag");
  expect(await etagOf(one)).toBe(await etagOf(other));
  await removeSong(house, house.maker, one);
  expect((await get(other)).status).toBe(200);
});

test("a copy whose song was removed while it was made is not kept", async () => {
  const songId = await addSong(toneFile(1, { level: 0.45 }));
  const { recordSha256 } = await house.db.song.findUniqueOrThrow({ where: { id: songId } });
  let written = () => {};
  let go = () => {};
  const isWritten = new Promise<void>((resolve) => {
    written = resolve;
  });
  const mayGoOn = new Promise<void>((resolve) => {
    go = resolve;
  });
  const copies = createEarCopies({
    ...house,
    log: pino({ level: "silent" }),
    make: async (...order) => {
      const answer = await makeEarCopy(...order);
      written();
      await mayGoOn;
      return answer;
    },
  });
  expect(await copies.want(recordSha256)).toMatchObject({ state: "making" });
  await isWritten;
  await removeSong(house, house.maker, songId);
  go();
  await copies.stop();
  expect(await house.db.earCopy.count({ where: { recordSha256 } })).toBe(0);
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);
});

test("the ear's weights are listed and given to whoever is signed in, under their checksum, for good", async () => {
  expect((await ask(getListing, api.ear(), null, {})).status).toBe(401);
  const listing = (await (await ask(getListing, api.ear(), house.listener, {})).json()) as EarListing;
  const { sha256, byteLength } = listing.ear!;
  expect((await ask(getWeights, api.earWeights(sha256), null, { sha256 })).status).toBe(401);
  const answer = await ask(getWeights, api.earWeights(sha256), house.listener, { sha256 });
  expect(answer.headers.get("cache-control")).toMatch(/immutable/);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  expect(bytes.length).toBe(byteLength);
  expect(createHash("sha256").update(bytes).digest("hex")).toBe(sha256);
  const nothing = "0".repeat(64);
  expect(
    await codeOf(await ask(getWeights, api.earWeights(nothing), house.listener, { sha256: nothing })),
  ).toEqual([404, "not-found"]);
});

test("a house without an ear says so, and one whose weights are damaged, until they are mended", async () => {
  const folder = await mkdtemp(join(house.config.dataFolder, "weights-"));
  const files = openEarFiles(folder);
  expect(await refusal(openEarFiles(join(folder, "nowhere")).list())).toBe("no-ear");
  expect(await refusal(files.list())).toBe("no-ear");
  const { manifest, bytes } = (await readWeightFile("ear"))!;
  await writeFile(join(folder, "ear.json"), JSON.stringify(manifest));
  await writeFile(
    join(folder, "ear.bin"),
    bytes.map((byte, i) => (i === 1_000 ? byte ^ 1 : byte)),
  );
  expect(await refusal(files.list())).toBe("ear-damaged");
  expect(await refusal(files.read(manifest.sha256))).toBe("ear-damaged");
  await writeFile(join(folder, "ear.bin"), bytes);
  for (const text of ["{", JSON.stringify({ ...manifest, byteLength: -1 })]) {
    await writeFile(join(folder, "ear.json"), text);
    expect(await refusal(files.list())).toBe("ear-damaged");
  }
  await writeFile(join(folder, "ear.json"), JSON.stringify(manifest));
  expect(Object.keys(await files.list())).toEqual(["ear"]);
});
