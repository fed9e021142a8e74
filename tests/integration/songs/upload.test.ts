import { createHash } from "node:crypto";
import { readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { addSong, addUploadedSong } from "@/lib/server/services/addSong";
import { hearingStatus } from "@/lib/server/services/hearingStatus";
import { openPeaks, openRecord } from "@/lib/server/services/openRecord";
import { readSong } from "@/lib/server/services/readSong";
import { removeSong } from "@/lib/server/services/removeSong";
import { renameSong } from "@/lib/server/services/renameSong";
import { rangedResponse } from "@/lib/server/storage/rangedResponse";
import { endlessEar, openSongHouse, refusal, type SongHouse } from "./songHouse";
import { asAiff, toneFile } from "./toneFile";

let house: SongHouse;
beforeAll(async () => {
  house = await openSongHouse({
    hear: endlessEar,
    env: { LIFTBOOK_MAX_UPLOAD_MB: "1", LIFTBOOK_FFMPEG: "off" },
  });
});
afterAll(() => house.close());
beforeEach(() => house.db.song.deleteMany());

async function* inChunks(bytes: Uint8Array, size = 4_096): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

const tone = toneFile(2);
const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

function upload(
  bytes: Uint8Array,
  more: Partial<Parameters<typeof addUploadedSong>[3]> = {},
  actor = house.maker,
) {
  return addUploadedSong(house, actor, house.bookId, {
    body: inChunks(bytes),
    byteCount: bytes.length,
    fileName: "Slow Blues in G.wav",
    ...more,
  });
}

async function files(): Promise<string[]> {
  const all = await readdir(join(house.config.dataFolder, "blobs"), { recursive: true, withFileTypes: true });
  return all.filter((one) => one.isFile()).map((one) => one.name);
}

async function nothingKept(): Promise<void> {
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);
  expect(await house.db.song.count()).toBe(0);
  expect(await house.db.hearingRun.count()).toBe(0);
}

async function bodyOf(response: Response): Promise<Buffer> {
  return Buffer.from(await response.arrayBuffer());
}

test("an upload becomes a song with its record, and a run that waits or runs", async () => {
  const row = await upload(tone);
  expect(row).toMatchObject({ title: "Slow Blues in G", durationSec: 2, addedByName: "Maker" });
  expect(["waiting", "running"]).toContain(row.hearing?.state);
  const page = await readSong(house.db, house.listener, row.id);
  expect(page).toMatchObject({
    title: "Slow Blues in G",
    role: "listener",
    sampleRateHz: 8_000,
    channelCount: 1,
  });
  expect(page.members.map(({ name }) => name).sort()).toEqual(["Listener", "Maker", "Student"]);
  expect(await hearingStatus(house.db, house.student, house.bookId)).toHaveProperty(row.id);
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);
});

test("a title of nothing readable gives way to the file's name", async () => {
  const bytes = toneFile(1.1);
  const row = await upload(bytes, { title: "\0 \0" });
  const named = await upload(bytes);
  expect(row.title).toBe(named.title);
  for (const { id } of [row, named]) await removeSong(house, house.maker, id);
});

test("the same bytes are stored once, and stay until the last song that uses them goes", async () => {
  const bytes = toneFile(1.5);
  const [first, second] = [await upload(bytes), await upload(bytes, { title: "Again" }, house.student)];
  expect(second.title).toBe("Again");
  expect((await files()).filter((name) => name === sha256(bytes))).toHaveLength(1);
  await removeSong(house, house.maker, first.id);
  expect(await files()).toContain(sha256(bytes));
  await removeSong(house, house.student, second.id);
  expect(await files()).not.toContain(sha256(bytes));
  expect(await house.db.blob.count({ where: { sha256: sha256(bytes) } })).toBe(0);
});

test("an upload that breaks off, or is taken back, leaves nothing", async () => {
  async function* breaking(): AsyncGenerator<Uint8Array> {
    yield tone.subarray(0, 5_000);
    throw new Error("aborted");
  }
  expect(await refusal(upload(tone, { body: breaking() }))).toBe("upload-broken");
  expect(await refusal(upload(tone, { body: inChunks(tone.subarray(0, 9_000)) }))).toBe("upload-broken");
  const stop = new AbortController();
  async function* takenBack(): AsyncGenerator<Uint8Array> {
    yield tone.subarray(0, 5_000);
    stop.abort();
    yield tone.subarray(5_000);
  }
  expect(await refusal(upload(tone, { body: takenBack(), signal: stop.signal }))).toBe("upload-broken");
  const late = new AbortController();
  const reading = upload(tone, { signal: late.signal });
  setTimeout(() => late.abort(), 30);
  expect(await refusal(reading)).toBe("upload-broken");
  await nothingKept();
});

test("too large: refused by the announced size before a byte is read, and by the bytes themselves", async () => {
  let read = false;
  async function* watched(): AsyncGenerator<Uint8Array> {
    read = true;
    yield tone;
  }
  expect(await refusal(upload(tone, { body: watched(), byteCount: 1_000_001 }))).toBe("too-large");
  expect(read).toBe(false);
  const large = toneFile(70);
  expect(large.length).toBeGreaterThan(1_000_000);
  expect(await refusal(upload(large, { byteCount: null }))).toBe("too-large");
  await nothingKept();
});

test("what is no sound, is empty, cut short, silent or named wrongly is refused, and nothing is kept", async () => {
  expect(await refusal(upload(Buffer.from("Dear diary, no sound today. ".repeat(99))))).toBe("not-audio");
  expect(await refusal(upload(Buffer.alloc(0)))).toBe("empty");
  expect(await refusal(upload(tone.subarray(0, 20_000)))).toBe("cut-short");
  expect(await refusal(upload(toneFile(1, { level: 0 })))).toBe("silent");
  expect(await refusal(upload(tone, { fileName: "tune.mp3" }))).toBe("wrong-type");
  await nothingKept();
});

test("listeners may not add, outsiders find nothing", async () => {
  expect(await refusal(upload(tone, {}, house.listener))).toBe("not-allowed");
  expect(await refusal(upload(tone, {}, house.outsider))).toBe("not-found");
  const { id } = await upload(tone);
  expect(await refusal(readSong(house.db, house.outsider, id))).toBe("not-found");
  expect(await refusal(openRecord(house, house.outsider, id))).toBe("not-found");
  expect(await refusal(openPeaks(house, house.outsider, id))).toBe("not-found");
  expect(await refusal(hearingStatus(house.db, house.outsider, house.bookId))).toBe("not-found");
  expect(await refusal(renameSong(house.db, house.outsider, id, "X"))).toBe("not-found");
  expect(await refusal(renameSong(house.db, house.listener, id, "X"))).toBe("not-allowed");
  expect((await renameSong(house.db, house.student, id, "New title")).title).toBe("New title");
  expect(await refusal(removeSong(house, house.student, id))).toBe("not-allowed");
  expect(await refusal(removeSong(house, house.outsider, id))).toBe("not-found");
  await removeSong(house, house.maker, id);
  expect(await refusal(readSong(house.db, house.maker, id))).toBe("not-found");
});

test("a file on this machine is added as an upload is, and stays where it is", async () => {
  const path = join(house.config.dataFolder, "demo.wav");
  await writeFile(path, tone);
  const row = await addSong(house, house.maker, house.bookId, { path, fileName: "demo.wav", title: "Demo" });
  expect(row.title).toBe("Demo");
  expect(await readdir(house.config.dataFolder)).toContain("demo.wav");
});

test("a record is given whole, in ranges and not at all where it is known", async () => {
  const { id } = await upload(tone);
  const get = async (headers: Record<string, string> = {}, method = "GET") =>
    rangedResponse(
      new Request("http://liftbook.test/", { headers, method }),
      await openRecord(house, house.listener, id),
    );
  const whole = await get();
  expect(whole.status).toBe(200);
  expect(whole.headers.get("content-type")).toBe("audio/wav");
  expect(whole.headers.get("accept-ranges")).toBe("bytes");
  expect(whole.headers.get("x-content-type-options")).toBe("nosniff");
  expect(whole.headers.get("cache-control")).toMatch(/private/);
  const etag = whole.headers.get("etag")!;
  expect(etag).toBe(`"${sha256(tone)}"`);
  expect((await bodyOf(whole)).equals(tone)).toBe(true);

  const part = await get({ range: "bytes=100-199" });
  expect(part.status).toBe(206);
  expect(part.headers.get("content-range")).toBe(`bytes 100-199/${tone.length}`);
  expect(part.headers.get("content-length")).toBe("100");
  expect((await bodyOf(part)).equals(tone.subarray(100, 200))).toBe(true);
  expect((await bodyOf(await get({ range: "bytes=-10" }))).equals(tone.subarray(-10))).toBe(true);

  const outside = await get({ range: `bytes=${tone.length}-` });
  expect(outside.status).toBe(416);
  expect(outside.headers.get("content-range")).toBe(`bytes */${tone.length}`);

  expect((await get({ "if-none-match": etag })).status).toBe(304);
  const other = await get({ range: "bytes=0-9", "if-range": '"other"' });
  expect(other.status).toBe(200);
  await bodyOf(other);
  const same = await get({ range: "bytes=0-9", "if-range": etag });
  expect(same.status).toBe(206);
  await bodyOf(same);
  const head = await get({}, "HEAD");
  expect(head.headers.get("content-length")).toBe(String(tone.length));
  expect((await bodyOf(head)).length).toBe(0);
});

test("a record that browsers do not play gets a listening copy with the same samples", async () => {
  const { id } = await upload(asAiff(tone), { fileName: "tune.aiff" });
  const record = await openRecord(house, house.maker, id);
  expect(record.mediaType).toBe("audio/wav");
  const bytes = await bodyOf(rangedResponse(new Request("http://liftbook.test/"), record));
  const at = bytes.indexOf("data") + 8;
  expect(bytes.subarray(at, at + 30_000).equals(tone.subarray(44, 44 + 30_000))).toBe(true);
  const names = await files();
  await removeSong(house, house.maker, id);
  expect(await files()).toHaveLength(names.length - 2);
});

test("the waveform is not found until it is made", async () => {
  const { id } = await upload(tone);
  expect(await refusal(openPeaks(house, house.maker, id))).toBe("not-found");
  await house.db.peaks.create({ data: { sha256: sha256(tone), data: Uint8Array.of(1, 2, 3, 4) } });
  const peaks = await openPeaks(house, house.listener, id);
  const part = rangedResponse(
    new Request("http://liftbook.test/", { headers: { range: "bytes=1-2" } }),
    peaks,
  );
  expect([...(await bodyOf(part))]).toEqual([2, 3]);
  await house.db.peaks.deleteMany();
});
