import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { readSong } from "@/lib/document/read/readSong";
import type { Hearing } from "@/lib/hearing/Hearing";
import { EarCrash, EarFault } from "@/lib/server/hearing/hearInWorker";
import { until } from "../sync/hubHarness";
import { endless, HEARD, RunHouse } from "./runHouse";

let house: RunHouse;
beforeAll(async () => {
  house = await RunHouse.start();
});
afterEach(() => house.clear());
afterAll(() => house.close());

test("taken up again: a run that an earlier process left running, and one without a job", async () => {
  const { runId } = await house.makeRun();
  const first = await house.openJobs(endless);
  await until("it runs", () => house.told.some(({ step }) => step === "beats"));
  // The first process is killed: nothing more is heard of it, and its job stays as it is.
  house.leaveJobs();
  const orphan = await house.makeRun("running");
  await house.openJobs(async () => HEARD);
  await house.untilState(runId, "done");
  await house.untilState(orphan.runId, "done");
  await first.stop();
});

test("stopping leaves the run for the next start, however often", async () => {
  const { runId } = await house.makeRun();
  for (let i = 0; i < 5; i++) {
    house.told = [];
    const jobs = await house.openJobs(endless);
    await until("it runs", () => house.told.some((one) => one.runId === runId && one.step === "beats"));
    await jobs.stop();
    house.leaveJobs();
    expect(["waiting", "running"]).toContain(await house.stateOf(runId));
  }
  await house.openJobs(async () => HEARD);
  await house.untilState(runId, "done");
});

test.each([
  ["", HEARD],
  ["of a house without a learned ear ", { ...HEARD, notes: null }],
])("an answer %sthat is stored already is only written into the song", async (_, stored) => {
  const { songId, runId } = await house.makeRun("running", stored);
  let heard = 0;
  await house.openJobs(async () => {
    heard++;
    return HEARD;
  });
  await house.untilState(runId, "done");
  expect(heard).toBe(0);
  expect(readSong(house.docs.get(songId)!).changes).toHaveLength(1);
});

test.each([
  ["bass line and sections", ["bass", "sections", "notes"]],
  ["notes", ["notes"]],
])(
  "an answer that an older Liftbook left, without %s, is not written: the record is heard anew",
  async (_, lacks) => {
    const older = Object.fromEntries(Object.entries(HEARD).filter(([name]) => !lacks.includes(name)));
    const { songId, runId } = await house.makeRun("running", older as unknown as Hearing);
    let heard = 0;
    await house.openJobs(async () => {
      heard++;
      return HEARD;
    });
    await house.untilState(runId, "done");
    expect(heard).toBe(1);
    const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
    expect(run.result).toEqual(HEARD);
    expect(readSong(house.docs.get(songId)!).bass).toHaveLength(1);
    expect(readSong(house.docs.get(songId)!).notes).toHaveLength(1);
  },
);

test("a song that cannot be written: the run fails with words, and its answer stays stored", async () => {
  const { songId, runId } = await house.makeRun();
  house.editFault = new Error("the database is away");
  const jobs = await house.openJobs(async () => HEARD);
  await house.untilState(runId, "failed");
  await jobs.stop();
  house.leaveJobs();
  const run = await house.db.hearingRun.findUniqueOrThrow({ where: { id: runId } });
  expect(run.result).toEqual(HEARD);
  expect(house.docs.has(songId)).toBe(false);
});

test("a thread that breaks is tried again twice, then the run fails with words", async () => {
  const { runId } = await house.makeRun();
  let tries = 0;
  await house.openJobs(async () => {
    tries++;
    throw new EarCrash("out of memory");
  });
  await house.untilState(runId, "failed");
  expect(tries).toBe(3);
  await until("the failure is told", () => house.told.at(-1)?.state === "failed");
  expect(house.told.at(-1)?.message).toMatch(/^Hearing stopped with a fault\./);
});

test("a record that cannot be heard fails at once", async () => {
  const { runId } = await house.makeRun();
  let tries = 0;
  await house.openJobs(async () => {
    tries++;
    throw new EarFault("no sound");
  });
  await house.untilState(runId, "failed");
  expect(tries).toBe(1);
});

test("a database that is away as a try ends is waited for, and the run goes on", async () => {
  const { runId } = await house.makeRun();
  let tries = 0;
  let away: Promise<unknown> = Promise.resolve();
  const jobs = await house.openJobs(async () => {
    tries++;
    if (tries > 1) return HEARD;
    away = house.db.$executeRawUnsafe("ALTER SCHEMA pgboss RENAME TO pgboss_away");
    await away;
    throw new EarCrash("broken once");
  });
  await until("the try has ended", () => tries === 1);
  await away;
  await new Promise((resolve) => setTimeout(resolve, 200));
  await house.db.$executeRawUnsafe("ALTER SCHEMA pgboss_away RENAME TO pgboss");
  jobs.wake();
  await house.untilState(runId, "done");
  expect(tries).toBe(2);
});
