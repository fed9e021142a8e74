import { chmod, mkdir, readFile, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { Client } from "pg";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { type EmbeddedPostgres, startEmbedded } from "@/lib/server/db/embedded";
import { newTestFolder, removeTestFolder } from "../testHouse";

let folder: string;
let running: EmbeddedPostgres | null = null;

beforeAll(async () => {
  folder = await newTestFolder();
});
afterEach(async () => {
  await running?.stop();
  running = null;
});
afterAll(() => removeTestFolder(folder));

async function ask<Row extends object>(url: string, sql: string): Promise<Row[]> {
  const client = new Client({ connectionString: url });
  // The server may be killed under it.
  client.on("error", () => undefined);
  await client.connect();
  try {
    return (await client.query<Row>(sql)).rows;
  } finally {
    await client.end();
  }
}

const pidFile = () => path.join(folder, "postgres/postmaster.pid");
const serverPid = async () => Number((await readFile(pidFile(), "utf8")).split("\n")[0]);
const words = async () =>
  (await ask<{ word: string }>(running!.url, "SELECT word FROM kept ORDER BY word")).map((r) => r.word);

describe.sequential("the PostgreSQL of our own", () => {
  test("syncs to disk, listens on loopback only and wants its password", async () => {
    running = await startEmbedded(folder);
    await ask(running.url, "CREATE TABLE kept (word text); INSERT INTO kept VALUES ('stopped')");
    const shown = async (name: string) => Object.values((await ask(running!.url, `SHOW ${name}`))[0]!)[0];
    expect(await shown("fsync")).toBe("on");
    expect(await shown("synchronous_commit")).toBe("on");
    expect(await shown("listen_addresses")).toBe("127.0.0.1");
    expect(await shown("unix_socket_directories")).toBe("");
    const wrong = new URL(running.url);
    wrong.password = "guess";
    await expect(ask(wrong.toString(), "SELECT 1")).rejects.toThrow(/password authentication failed/);
    const secret = await stat(path.join(folder, "secrets/postgres-password"));
    expect((secret.mode & 0o777).toString(8)).toBe("600");
    expect((await stat(path.join(folder, "secrets"))).mode & 0o077).toBe(0);
  });

  test("starts again after a clean stop with everything in it", async () => {
    running = await startEmbedded(folder);
    expect(running.takenOver).toBe(false);
    expect(await words()).toEqual(["stopped"]);
  });

  test("starts again after kill -9 with everything that was committed", async () => {
    running = await startEmbedded(folder);
    await ask(running.url, "INSERT INTO kept VALUES ('killed')");
    const pid = await serverPid();
    process.kill(pid, "SIGKILL");
    expect(await serverPid()).toBe(pid);
    running = await startEmbedded(folder);
    expect(running.takenOver).toBe(false);
    expect(await serverPid()).not.toBe(pid);
    expect(await words()).toEqual(["killed", "stopped"]);
  });

  test("is taken over where it outlived its Liftbook", async () => {
    const left = await startEmbedded(folder);
    const pid = await serverPid();
    running = await startEmbedded(folder);
    expect(running.takenOver).toBe(true);
    expect(running.url).toBe(left.url);
    expect(await serverPid()).toBe(pid);
    expect(await words()).toEqual(["killed", "stopped"]);
  });

  test("is not misled by a note of a process number that another program has now", async () => {
    running = await startEmbedded(folder);
    const noted = (await readFile(pidFile(), "utf8")).split("\n");
    await running.stop();
    await writeFile(pidFile(), [String(process.pid), ...noted.slice(1)].join("\n"));
    running = await startEmbedded(folder);
    expect(running.takenOver).toBe(false);
    expect(await words()).toEqual(["killed", "stopped"]);
  });

  test("leaves no half-made data folder to a second try", async () => {
    const other = await newTestFolder();
    // What a first start that was killed half-way leaves.
    await mkdir(path.join(other, "postgres.new"));
    await writeFile(path.join(other, "postgres.new/PG_VERSION"), "18\n");
    running = await startEmbedded(other);
    expect(await ask(running.url, "SELECT 1 AS one")).toEqual([{ one: 1 }]);
    await running.stop();
    running = null;
    await removeTestFolder(other);
  });

  // An ordinary user needs no other user to run it, so nothing can be closed to that one.
  test.runIf(process.getuid?.() === 0)(
    "says which folder is closed to the user that root drops to",
    async () => {
      const closed = await newTestFolder();
      await chmod(closed, 0o700);
      const inside = path.join(closed, "data");
      await expect(startEmbedded(inside)).rejects.toThrow(`may not enter ${closed}`);
      await expect(startEmbedded(inside)).rejects.toThrow(/LIFTBOOK_DATA/);
      await removeTestFolder(closed);
    },
  );
});
