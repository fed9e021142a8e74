import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readSong } from "@/lib/document/read/readSong";
import { readConfig } from "@/lib/server/config/config";
import { listBooks } from "@/lib/server/services/listBooks";
import { readBook } from "@/lib/server/services/readBook";
import { demoTruth } from "@/prisma/demo/demoTruth";
import { DEMO_SCENARIO } from "@/prisma/demo/scenario";
import { type DemoAccount, seedDemo, wantsDemo } from "@/prisma/seed/seedDemo";
import { openRouteHouse, type RouteHouse } from "../people/houseForRoutes";
import { OWN_FOLDER } from "../testHouse";

let house: RouteHouse;

beforeAll(async () => {
  house = await openRouteHouse({ LIFTBOOK_DEMO: "auto", LIFTBOOK_HEARING_WORKERS: "1" });
});
afterAll(() => house.close());

const wantsWith = (env: Record<string, string>) =>
  wantsDemo({ db: house.db, config: readConfig(env, OWN_FOLDER) });

async function rowCounts() {
  const { db } = house;
  const [users, books, songs, blobs] = [
    db.user.count(),
    db.book.count(),
    db.song.count(),
    db.session.count(),
  ];
  return Promise.all([users, books, songs, blobs]);
}

describe.sequential("the demo", () => {
  test("comes by itself only to an empty Liftbook that others cannot reach", async () => {
    expect(await wantsWith({})).toBe(true);
    expect(await wantsWith({ HOST: "localhost" })).toBe(true);
    expect(await wantsWith({ HOST: "0.0.0.0" })).toBe(false);
    expect(await wantsWith({ HOST: "::" })).toBe(false);
    expect(await wantsWith({ LIFTBOOK_URL: "https://lift.example.org" })).toBe(false);
    expect(await wantsWith({ LIFTBOOK_DEMO: "off" })).toBe(false);
    expect(await wantsWith({ LIFTBOOK_DEMO: "on", HOST: "0.0.0.0" })).toBe(true);
  });

  test("that cannot be finished leaves nobody and nothing behind", async () => {
    const stopped = AbortSignal.abort(new Error("asked to stop"));
    await expect(seedDemo(house, stopped)).rejects.toThrow();
    expect(await rowCounts()).toEqual([0, 0, 0, 0]);
  });

  test("is made through the same services as people use, and its song waits to be heard", async () => {
    const accounts = await seedDemo(house);
    expect(accounts.map(({ name, email }) => ({ name, email }))).toEqual([
      DEMO_SCENARIO.teacher,
      DEMO_SCENARIO.student,
    ]);
    const [teacher, student] = await Promise.all(accounts.map(signIn));
    const [book] = await listBooks(house.db, student!);
    expect(book).toMatchObject({
      title: DEMO_SCENARIO.bookTitle,
      role: "student",
      isMaker: false,
      songCount: 1,
    });
    expect(await listBooks(house.db, teacher!)).toMatchObject([{ role: "teacher", isMaker: true }]);

    const { songs, invites } = await readBook(house.db, teacher!, book!.id);
    expect(invites).toEqual([]);
    expect(songs).toMatchObject([
      { title: DEMO_SCENARIO.songTitle, addedByName: DEMO_SCENARIO.teacher.name },
    ]);
    // Whatever the state is by now, it is that of a real run: the row carries no answer that no run gave.
    const run = await house.db.hearingRun.findFirstOrThrow({ where: { songId: songs[0]!.id } });
    if (run.state !== "done") expect(run.result).toBeNull();

    const part = await house.hub.edit(songs[0]!.id, (doc) => readSong(doc).part);
    expect(part.map(({ startSec, fret }) => ({ startSec, fret }))).toEqual(
      demoTruth().part.map(({ startSec, fret }) => ({ startSec, fret })),
    );
    expect(new Set(part.map(({ madeBy, mark }) => `${madeBy} ${mark}`))).toEqual(
      new Set([`${teacher!.userId} ink`]),
    );

    const questions = await house.hub.edit(songs[0]!.id, (doc) => readSong(doc).questions);
    expect(questions).toMatchObject([
      { by: student!.userId, settled: { by: student!.userId }, answers: [{ by: teacher!.userId }] },
      { by: student!.userId, settled: null, answers: [] },
    ]);
  });

  test("comes once", async () => {
    expect(await wantsWith({})).toBe(false);
    expect(await wantsWith({ LIFTBOOK_DEMO: "on" })).toBe(false);
  });

  test("has passwords that are new each time and stand nowhere in the database", async () => {
    const rows = JSON.stringify(await house.db.account.findMany());
    for (const { password } of signedIn) {
      expect(password).toMatch(/^([a-z2-9]{5}-){3}[a-z2-9]{5}$/);
      expect(rows).not.toContain(password);
    }
    expect(new Set(signedIn.map(({ password }) => password)).size).toBe(2);
  });
});

const signedIn: DemoAccount[] = [];

async function signIn(account: DemoAccount) {
  signedIn.push(account);
  const { email, password } = account;
  const { user } = await house.auth.api.signInEmail({ body: { email, password } });
  return { userId: user.id, name: user.name, email: user.email };
}
