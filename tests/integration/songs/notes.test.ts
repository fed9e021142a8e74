import { randomUUID } from "node:crypto";
import pino from "pino";
import { afterAll, beforeAll, expect, test } from "vitest";
import { GET as getNotes } from "@/app/api/songs/[songId]/notes/route";
import { api } from "@/lib/contracts/api";
import type { SongNotes } from "@/lib/contracts/notes";
import type { HeardNote } from "@/lib/hearing/Hearing";
import type { Auth } from "@/lib/server/auth/auth";
import { openHouse } from "@/lib/server/house";
import { makeSong } from "./makeSong";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";

let house: SongHouse;
let songId: string;
beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar });
  const people = [house.maker, house.listener, house.outsider];
  // Who asks stands in a header here; the real sessions are checked with the accounts.
  const getSession = async ({ headers }: { headers: Headers }) => {
    const person = people.find(({ userId }) => userId === headers.get("x-user"));
    return person ? { user: { id: person.userId, name: person.name, email: person.email } } : null;
  };
  openHouse({
    ...house,
    auth: { api: { getSession } } as unknown as Auth,
    log: pino({ level: "silent" }),
    origins: ["http://liftbook.test"],
  });
});
afterAll(() => house.close());

const STEEL: HeardNote = { startSec: 1, endSec: 2, midi: 64, confidence: 0.8, steel: 0.5, glides: [] };
const BAND: HeardNote = {
  ...{ startSec: 1, endSec: 2, midi: 43.1, confidence: 0.7, steel: 0.49 },
  glides: [{ kind: "unsure", toMidi: 45, atSec: 1.5, durationSec: 0.1 }],
};

function ask(as?: string) {
  const headers = new Headers(as ? { "x-user": as } : {});
  const request = new Request(`http://liftbook.test${api.notes(songId)}`, { headers });
  return getNotes(request, { params: Promise.resolve({ songId }) });
}

async function heard(): Promise<SongNotes> {
  return (await (await ask(house.listener.userId)).json()) as SongNotes;
}

/** A run of the song, each later than those before. */
let runs = 0;
function run(state: "done" | "running" | "cancelled", result?: object) {
  const createdAt = new Date(Date.UTC(2030, 0, 1) + runs++ * 1000);
  return house.db.hearingRun.create({
    data: { id: randomUUID(), songId, state, createdAt, ...(result && { result: { ...result } }) },
  });
}

test("the band's notes of the latest finished hearing, for members of the book", async () => {
  songId = await makeSong(house.db, "f".repeat(64));
  const { bookId } = await house.db.song.findUniqueOrThrow({ where: { id: songId } });
  const role = "listener";
  await house.db.member.create({ data: { bookId, userId: house.listener.userId, role } });

  expect(await heard()).toEqual({ state: "notHeard", notes: [] });
  await run("done", { version: "of an older Liftbook" });
  expect(await heard()).toEqual({ state: "notHeard", notes: [] });
  await run("done", { notes: null });
  expect(await heard()).toEqual({ state: "noEar", notes: [] });
  await run("done", { notes: [STEEL, BAND] });
  expect(await heard()).toEqual({ state: "heard", notes: [BAND] });
  await run("running");
  await run("cancelled", { notes: [] });
  expect(await heard()).toEqual({ state: "heard", notes: [BAND] });

  expect((await ask()).status).toBe(401);
  const outside = await ask(house.outsider.userId);
  expect(outside.status).toBe(404);
  expect(await outside.text()).not.toContain("43.1");
});
