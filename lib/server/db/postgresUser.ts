import { execFile } from "node:child_process";
import { chmod, chown, stat } from "node:fs/promises";
import path from "node:path";
import { promisify } from "node:util";

const run = promisify(execFile);

/** The account that PostgreSQL runs as where Liftbook runs as root, which PostgreSQL refuses to do. */
export interface PostgresUser {
  uid: number;
  gid: number;
}

/** PostgreSQL cannot run as another user here; the message says what is in the way and what to do. */
export class PostgresUserError extends Error {
  override readonly name = "PostgresUserError";
}

const USER = "postgres";

async function lookUp(): Promise<PostgresUser | null> {
  try {
    const [uid, gid] = await Promise.all([run("id", ["-u", USER]), run("id", ["-g", USER])]);
    return { uid: Number(uid.stdout), gid: Number(gid.stdout) };
  } catch {
    return null;
  }
}

/** The user to drop to, made where it is missing; null where this process is not root and needs none. */
export async function postgresUser(): Promise<PostgresUser | null> {
  if (process.getuid?.() !== 0) return null;
  const found = await lookUp();
  if (found) return found;
  try {
    await run("groupadd", ["--system", USER]).catch(() => undefined);
    await run("useradd", [
      "--system",
      "--gid",
      USER,
      "--no-create-home",
      "--shell",
      "/usr/sbin/nologin",
      USER,
    ]);
  } catch {
    // Without the shadow tools there may be BusyBox's.
    await run("adduser", ["-S", "-D", "-H", USER]).catch(() => undefined);
  }
  const made = await lookUp();
  if (made) return made;
  throw new PostgresUserError(
    `PostgreSQL does not run as root, and no user named ${USER} could be made. Start Liftbook as an ordinary user, make that user yourself, or set DATABASE_URL.`,
  );
}

/** The first folder on the way from the root down to `folder` that the user may not enter; null where all are open. */
export async function closedFolder(folder: string, user: PostgresUser): Promise<string | null> {
  const way: string[] = [];
  for (let at = path.resolve(folder); ; at = path.dirname(at)) {
    way.unshift(at);
    if (at === path.dirname(at)) break;
  }
  for (const at of way) {
    const { mode, uid, gid } = await stat(at);
    const enter = uid === user.uid ? 0o100 : gid === user.gid ? 0o010 : 0o001;
    if ((mode & enter) === 0) return at;
  }
  return null;
}

/**
 * Lets the user enter the data folder (but not list it), and sees that every folder above it and above the
 * programs is open to it.
 * @throws {PostgresUserError} naming the folder that is closed
 */
export async function openWay(dataFolder: string, programs: string, user: PostgresUser): Promise<void> {
  if ((await closedFolder(dataFolder, user)) === dataFolder) {
    const { uid, mode } = await stat(dataFolder);
    await chown(dataFolder, uid, user.gid);
    await chmod(dataFolder, (mode & 0o7707) | 0o010);
  }
  for (const [what, folder, advice] of [
    ["its data", dataFolder, "Set LIFTBOOK_DATA to a folder elsewhere (such as /var/lib/liftbook)"],
    ["its programs", programs, "Move Liftbook's folder elsewhere (such as /opt/liftbook)"],
  ] as const) {
    const closed = await closedFolder(folder, user);
    if (closed === null) continue;
    throw new PostgresUserError(
      `As root, Liftbook runs PostgreSQL as the user ${USER}, who may not enter ${closed}, where ${what} would be. ${advice}, open it with "chmod o+x ${closed}", start Liftbook as an ordinary user, or set DATABASE_URL.`,
    );
  }
}
