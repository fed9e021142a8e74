import { execFile } from "node:child_process";
import { link, readFile, rename, rm, writeFile } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { promisify } from "node:util";
import { z } from "zod";
import { makeDataFolder } from "@/lib/server/config/dataFolder";

/** Another Liftbook holds the data folder; the message names its process and address. */
export class AlreadyRunning extends Error {
  override readonly name = "AlreadyRunning";
}

/** The right to a data folder, held until {@link release}. */
export interface InstanceLock {
  /** Notes where the server is reached, for whoever tries to start a second. */
  note(url: string): Promise<void>;
  release(): Promise<void>;
}

const holderSchema = z.object({
  pid: z.number().int().positive(),
  host: z.string(),
  /** When the process began, as its system tells it; null where it does not. */
  began: z.string().nullable(),
  url: z.string().nullable(),
});
type Holder = z.infer<typeof holderSchema>;

const run = promisify(execFile);

/** What tells a process from a later one of the same number. */
async function beganAt(pid: number): Promise<string | null> {
  try {
    if (process.platform === "linux") {
      const [stat, boot] = await Promise.all([
        readFile(`/proc/${pid}/stat`, "utf8"),
        readFile("/proc/sys/kernel/random/boot_id", "utf8"),
      ]);
      // Field 22 (starttime); the second field, a name in brackets, may hold spaces (proc(5)).
      return `${boot.trim()}/${stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19]}`;
    }
    return (await run("ps", ["-p", String(pid), "-o", "lstart="])).stdout.trim() || null;
  } catch {
    return null;
  }
}

function exists(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (fault) {
    return (fault as NodeJS.ErrnoException).code === "EPERM";
  }
}

async function isAlive(holder: Holder): Promise<boolean> {
  // Of a process on another machine that shares the folder nothing can be known: it counts as alive.
  if (holder.host !== os.hostname()) return true;
  if (!exists(holder.pid)) return false;
  return holder.began === null || holder.began === (await beganAt(holder.pid));
}

async function readHolder(file: string): Promise<Holder | null> {
  const text = await readFile(file, "utf8").catch(() => null);
  if (text === null) return null;
  try {
    return holderSchema.parse(JSON.parse(text));
  } catch {
    return null;
  }
}

function refusal(dataFolder: string, holder: Holder): AlreadyRunning {
  const where = holder.url ? `, ${holder.url}` : "";
  if (holder.host === os.hostname())
    return new AlreadyRunning(
      `A Liftbook is already running on this folder (process ${holder.pid}${where}). Use that one, stop it first, or set LIFTBOOK_DATA to another folder than ${dataFolder}.`,
    );
  return new AlreadyRunning(
    `The folder ${dataFolder} is held by a Liftbook on the machine ${holder.host} (process ${holder.pid}${where}). If that one is gone for good, remove ${path.join(dataFolder, "running.json")} and start again.`,
  );
}

/**
 * Takes a data folder for this process, making it where it is missing. What a killed process left is taken over.
 * @throws {AlreadyRunning}
 */
export async function lockDataFolder(dataFolder: string): Promise<InstanceLock> {
  await makeDataFolder(dataFolder);
  const file = path.join(dataFolder, "running.json");
  const own = `${file}.${process.pid}`;
  const holder: Holder = {
    pid: process.pid,
    host: os.hostname(),
    began: await beganAt(process.pid),
    url: null,
  };
  const write = () => writeFile(own, `${JSON.stringify(holder)}\n`, { mode: 0o600 });
  await write();
  try {
    for (;;) {
      // A link is made whole or not at all, and never over another: whoever makes it holds the folder.
      const taken = await link(own, file).then(
        () => true,
        (fault: NodeJS.ErrnoException) => {
          if (fault.code === "EEXIST") return false;
          throw fault;
        },
      );
      if (taken) break;
      const other = await readHolder(file);
      if (other && (await isAlive(other))) throw refusal(dataFolder, other);
      await removeStale(file, other, dataFolder);
    }
  } finally {
    await rm(own, { force: true });
  }
  return {
    async note(url) {
      holder.url = url;
      await write();
      await rename(own, file);
    },
    release: () => rm(file, { force: true }),
  };
}

// Moved aside before it is removed, and put back where it turns out to be the lock of one who was quicker.
async function removeStale(file: string, seen: Holder | null, dataFolder: string): Promise<void> {
  const aside = `${file}.stale.${process.pid}`;
  try {
    await rename(file, aside);
  } catch {
    return;
  }
  const moved = await readHolder(aside);
  if (moved && moved.pid !== seen?.pid && (await isAlive(moved))) {
    await link(aside, file).catch(() => undefined);
    await rm(aside, { force: true });
    throw refusal(dataFolder, moved);
  }
  await rm(aside, { force: true });
}
