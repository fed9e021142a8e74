import { randomUUID } from "node:crypto";
import pino from "pino";
import { afterAll, beforeAll, expect, test } from "vitest";
import { POST as postBook } from "@/app/api/books/[bookId]/labels/route";
import { POST as postSong } from "@/app/api/songs/[songId]/labels/route";
import { api } from "@/lib/contracts/api";
import type { ErrorBody } from "@/lib/contracts/errors";
import { type LabelsFile, measuredLabelsSchema } from "@/lib/contracts/labels";
import type { CommandContext } from "@/lib/document/commands/act";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { readSong } from "@/lib/document/read/readSong";
import { readHeard } from "@/lib/document/read/settle";
import { songMap } from "@/lib/document/records/storage";
import type { HeardNote, Hearing } from "@/lib/hearing/Hearing";
import type { Auth } from "@/lib/server/auth/auth";
import type { Actor } from "@/lib/server/auth/session";
import { openHouse } from "@/lib/server/house";
import { exportSongLabels } from "@/lib/server/services/exportLabels";
import { actorOf, addTestUser } from "../testHouse";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";

const ORIGIN = "http://liftbook.test";
let house: SongHouse;
/** Writes in the book too, and added nothing. */
let other: Actor;
/** Added by the student; the maker's own stands in the same book. */
let songId: string;
const SHA256 = "a".repeat(64);
const MAKERS_SHA256 = "b".repeat(64);

function steelNote(startSec: number, midi: number, changed: Partial<HeardNote> = {}): HeardNote {
  return { startSec, endSec: startSec + 0.9, midi, confidence: 0.8, steel: 0.9, glides: [], ...changed };
}

function heard(notes: HeardNote[]): Hearing {
  return {
    ...{ version: "ear 7", durationSec: 8, tuningCents: -12, tuningConfidence: 0.9 },
    grid: {
      beats: [{ timeSec: 0, inBar: 1 }],
      ...{ tempoBpm: 120, beatsPerBar: 4, division: 2, freeStretches: [] },
      ...{ beatsConfidence: 0.9, barsConfidence: 0.8 },
    },
    homes: [{ startSec: 0, endSec: 8, tonic: "G", mode: "major", confidence: 0.7, nextBest: [] }],
    chords: [{ startSec: 0, endSec: 8, label: "G:maj", confidence: 0.6, nextBest: [] }],
    ...{ bass: [], sections: [], notes },
  };
}

async function addSong(addedBy: Actor, sha256: string, notes: HeardNote[]): Promise<string> {
  const { db, hub, bookId } = house;
  const id = randomUUID();
  await db.blob.create({ data: { sha256, byteCount: 1n, mediaType: "audio/wav" } });
  await db.song.create({
    data: {
      ...{ id, bookId, title: "Wagon Ruts", recordSha256: sha256, addedById: addedBy.userId },
      ...{ durationSec: 8, sampleRateHz: 44_100, channelCount: 1 },
    },
  });
  const runId = randomUUID();
  const hearing = heard(notes);
  await db.hearingRun.create({
    data: { id: runId, songId: id, state: "done", result: JSON.parse(JSON.stringify(hearing)) },
  });
  await hub.edit(id, (doc) => writeHearing({ doc, nowMs: Date.now(), origin: "test" }, hearing, runId));
  return id;
}

function actIn(on: string, by: Actor, act: (ctx: CommandContext, idAt: (sec: number) => string) => unknown) {
  return house.hub.edit(on, (doc) => {
    const idAt = (sec: number) => readSong(doc).notes.find(({ startSec }) => startSec === sec)!.id;
    act({ doc, by: by.userId, nowMs: Date.now(), newId: randomUUID, origin: "test" }, idAt);
  });
}

beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar });
  other = actorOf(await addTestUser(house.db, "Other"));
  await house.db.member.create({
    data: { bookId: house.bookId, userId: other.userId, role: "student" },
  });
  const people = [house.maker, house.student, house.listener, house.outsider, other];
  // Who asks stands in a header here; the real sessions are checked with the accounts.
  const getSession = async ({ headers }: { headers: Headers }) => {
    const person = people.find(({ userId }) => userId === headers.get("x-user"));
    return person ? { user: { id: person.userId, name: person.name, email: person.email } } : null;
  };
  const auth = { api: { getSession } } as unknown as Auth;
  openHouse({ ...house, auth, log: pino({ level: "silent" }), origins: [ORIGIN] });

  const band = steelNote(6, 48, { steel: 0.2, confidence: 0.5 });
  songId = await addSong(house.student, SHA256, [
    ...[steelNote(1, 60), steelNote(2, 62), steelNote(3, 64), steelNote(5, 65)],
    band,
  ]);
  await actIn(songId, house.student, (ctx, idAt) => {
    inkNotes(ctx, [idAt(1)]);
    editNote(ctx, idAt(2), { midi: 63 });
    rubOutNote(ctx, idAt(3));
  });
  await actIn(songId, other, (ctx) => addNote(ctx, { ...band, glides: [] }));
  const makers = await addSong(house.maker, MAKERS_SHA256, [steelNote(1, 70)]);
  await actIn(makers, other, (ctx, idAt) => inkNotes(ctx, [idAt(1)]));
});
afterAll(() => house.close());

function ask(path: string, as: Actor | null, body: unknown, origin = ORIGIN): Promise<Response> {
  const headers = new Headers({ origin, "content-type": "application/json" });
  if (as) headers.set("x-user", as.userId);
  const request = new Request(`${ORIGIN}${path}`, { method: "POST", headers, body: JSON.stringify(body) });
  return path === api.songLabels(songId)
    ? postSong(request, { params: Promise.resolve({ songId }) })
    : postBook(request, { params: Promise.resolve({ bookId: house.bookId }) });
}
const askSong = (as: Actor | null, body: unknown, origin?: string) =>
  ask(api.songLabels(songId), as, body, origin);
const askBook = (as: Actor | null, body: unknown) => ask(api.bookLabels(house.bookId), as, body);

async function refusalOf(answer: Promise<Response>) {
  const response = await answer;
  return [response.status, ((await response.json()) as ErrorBody).error.code];
}

const NOTES = { kinds: ["note"] };

test("a song's labels go to its owners only: who added it, and who made the book", async () => {
  expect((await askSong(house.student, NOTES)).status).toBe(200);
  expect((await askSong(house.maker, NOTES)).status).toBe(200);
  expect(await refusalOf(askSong(other, NOTES))).toEqual([403, "not-allowed"]);
  expect(await refusalOf(askSong(house.listener, NOTES))).toEqual([403, "not-allowed"]);
  expect(await refusalOf(askSong(house.outsider, NOTES))).toEqual([404, "not-found"]);
  expect(await refusalOf(askSong(null, NOTES))).toEqual([401, "not-signed-in"]);
  expect(await refusalOf(askSong(house.student, NOTES, "http://elsewhere.test"))).toEqual([
    403,
    "wrong-origin",
  ]);
});

test("a book's labels go to its maker only", async () => {
  expect((await askBook(house.maker, NOTES)).status).toBe(200);
  expect(await refusalOf(askBook(house.student, NOTES))).toEqual([403, "not-allowed"]);
  expect(await refusalOf(askBook(house.listener, NOTES))).toEqual([403, "not-allowed"]);
  expect(await refusalOf(askBook(house.outsider, NOTES))).toEqual([404, "not-found"]);
  expect(await refusalOf(askBook(null, NOTES))).toEqual([401, "not-signed-in"]);
});

test("nothing is told that was not chosen", async () => {
  for (const body of [{}, { kinds: [] }, { kinds: ["part"] }, { kinds: "note" }]) {
    expect(await refusalOf(askSong(house.student, body))).toEqual([400, "bad-request"]);
    expect(await refusalOf(askBook(house.maker, body))).toEqual([400, "bad-request"]);
  }
  const { songs } = (await (
    await askSong(house.student, { kinds: ["home", "change"] })
  ).json()) as LabelsFile;
  expect(songs).toHaveLength(1);
  expect(Object.keys(songs[0]!.labels).sort()).toEqual(["change", "home"]);
  expect(songs[0]).not.toHaveProperty("notesGoneOver");
});

test("the file tells what people made of what was heard, without sound, titles, names or ids", async () => {
  const text = await (await askSong(house.student, NOTES)).text();
  const file = JSON.parse(text) as LabelsFile;
  expect(measuredLabelsSchema.safeParse(file).success).toBe(true);
  const [song] = file.songs;
  expect(song).toMatchObject({ recordSha256: SHA256, durationSec: 8, tuningCents: -12 });
  expect(song!.labels.note!.map(({ act, changed, by }) => [act, changed, by])).toEqual([
    ["inked", [], [1]],
    ["corrected", ["midi"], [1]],
    ["rubbedOut", [], [1]],
    ["open", [], []],
    ["corrected", ["whose"], [2]],
  ]);
  expect(song!.labels.note![1]).toMatchObject({
    proposed: { values: { midi: 62, whose: "steel" }, confidence: 0.8, aside: { steel: 0.9 }, ear: "ear 7" },
    settled: { startSec: 2, midi: 63 },
  });
  expect(song!.labels.note![4]!.proposed).toMatchObject({ values: { whose: "band" }, confidence: 0.5 });
  expect(song!.notesGoneOver).toEqual([{ startSec: 1, endSec: 3.9 }]);
  const people = [house.maker, house.student, other].flatMap(({ userId, name, email }) => [
    userId,
    name,
    email,
  ]);
  for (const secret of [...people, "Wagon", songId, house.bookId]) expect(text).not.toContain(secret);
});

test("in a book's file a person has one number, and each song the name of its own record", async () => {
  const { songs } = (await (await askBook(house.maker, NOTES)).json()) as LabelsFile;
  expect(songs.map(({ recordSha256 }) => recordSha256)).toEqual([SHA256, MAKERS_SHA256]);
  expect(songs[0]!.labels.note!.at(-1)!.by).toEqual([2]);
  expect(songs[1]!.labels.note!.map(({ by }) => by)).toEqual([[2]]);
});

test("a run that a song names but that heard another one is passed over", async () => {
  const { id: runId } = await house.db.hearingRun.findFirstOrThrow({ where: { songId } });
  const own = await addSong(house.student, "c".repeat(64), []);
  await actIn(own, house.student, (ctx) => {
    addNote(ctx, { startSec: 6, endSec: 6.9, midi: 48, glides: [] });
    songMap(ctx.doc).set("heard", { ...readHeard(ctx.doc), runId });
  });
  const { songs } = await exportSongLabels(house, house.student, own, ["note"]);
  expect(songs[0]!.labels.note!.map(({ act, proposed }) => [act, proposed])).toEqual([["added", null]]);
});
