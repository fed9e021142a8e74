import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFile, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { lockDataFolder } from "@/lib/cli/start/instanceLock";
import { listen } from "@/lib/cli/start/listen";
import { newTestFolder, OWN_FOLDER, removeTestFolder } from "../testHouse";

let folder: string;
beforeEach(async () => {
  folder = await newTestFolder();
});
afterEach(() => removeTestFolder(folder));

const lockFile = () => path.join(folder, "running.json");

/** Runs the start command as `npm start` does; resolves when it has ended. */
async function runStart(env: Record<string, string>): Promise<{ code: number | null; printed: string }> {
  const child = spawn(process.execPath, ["--import", "tsx", "lib/cli/start.ts"], {
    cwd: OWN_FOLDER,
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let printed = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (chunk) => (printed += String(chunk)));
  const [code] = (await once(child, "close")) as [number | null];
  return { code, printed };
}

describe("one Liftbook a data folder", () => {
  test("a second start says that the first is running, where, and exits 1", async () => {
    const lock = await lockDataFolder(folder);
    await lock.note("http://127.0.0.1:4999");
    const { code, printed } = await runStart({ LIFTBOOK_DATA: folder });
    expect(code).toBe(1);
    expect(printed).toContain(
      `A Liftbook is already running on this folder (process ${process.pid}, http://127.0.0.1:4999).`,
    );
    expect(JSON.parse(await readFile(lockFile(), "utf8"))).toMatchObject({ pid: process.pid });
    await lock.release();
  });

  test("only one of many that start at once gets the folder", async () => {
    const tries = await Promise.allSettled([1, 2, 3, 4, 5].map(() => lockDataFolder(folder)));
    const taken = tries.filter((each) => each.status === "fulfilled");
    expect(taken).toHaveLength(1);
    await taken[0]!.value.release();
    await (await lockDataFolder(folder)).release();
  });

  test("a folder whose holder was killed is taken over", async () => {
    const child = spawn(process.execPath, ["-e", ""], { stdio: "ignore" });
    await once(child, "exit");
    const lock = await lockDataFolder(folder);
    const held = JSON.parse(await readFile(lockFile(), "utf8"));
    await lock.release();
    await writeFile(lockFile(), JSON.stringify({ ...held, pid: child.pid }));
    await (await lockDataFolder(folder)).release();
  });

  test("so is one whose holder's process number went to another program", async () => {
    const lock = await lockDataFolder(folder);
    const held = JSON.parse(await readFile(lockFile(), "utf8"));
    await lock.release();
    await writeFile(lockFile(), JSON.stringify({ ...held, began: "another boot/1" }));
    await (await lockDataFolder(folder)).release();
  });

  test("a lock that a crash left half-written is taken over", async () => {
    await writeFile(lockFile(), '{"pid": 1');
    await (await lockDataFolder(folder)).release();
  });

  test("a holder on another machine counts as running", async () => {
    const elsewhere = { pid: 1, host: "another-machine", began: null, url: "http://10.0.0.9:4280" };
    await writeFile(lockFile(), JSON.stringify(elsewhere));
    await expect(lockDataFolder(folder)).rejects.toThrow(/on the machine another-machine.*running\.json/);
  });
});

describe("the start command", () => {
  test("names a setting that it cannot use and exits 1", async () => {
    const { code, printed } = await runStart({ LIFTBOOK_DATA: folder, PORT: "eighty" });
    expect(code).toBe(1);
    expect(printed).toContain('PORT is "eighty"; it must be a whole number from 0 to 65535.');
  });

  test("says that the port is taken and which setting changes it", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    await once(other, "listening");
    const { port } = other.address() as { port: number };
    await expect(listen({ host: "127.0.0.1", port })).rejects.toThrow(
      `Port ${port} on 127.0.0.1 is taken by another program. Set PORT`,
    );
    other.close();
  });

  test("holds callers off in words until it is ready", async () => {
    const listening = await listen({ host: "127.0.0.1", port: 0 });
    const answer = await fetch(`http://127.0.0.1:${listening.port}/books`);
    expect(answer.status).toBe(503);
    expect(await answer.text()).toContain("Liftbook is starting");
    await listening.close();
  });
});
