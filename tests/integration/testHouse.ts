import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { Client } from "pg";
import type { Actor } from "@/lib/server/auth/session";
import { type Config, readConfig } from "@/lib/server/config/config";
import { connectDatabase } from "@/lib/server/db/connect";
import { type EmbeddedPostgres, startEmbedded } from "@/lib/server/db/embedded";
import type { PrismaClient, User } from "@/lib/server/db/generated/client";
import { migrate } from "@/lib/server/db/migrate";

export const OWN_FOLDER = fileURLToPath(new URL("../../", import.meta.url));
export const MIGRATIONS = path.join(OWN_FOLDER, "prisma/migrations");

/** A database and a data folder of a test's own. */
export interface TestHouse {
  db: PrismaClient;
  /** Settings at their defaults, but for the data folder, the database and what the test asked for. */
  config: Config;
  /** Leaves nothing behind. */
  close(): Promise<void>;
}

// One PostgreSQL a test file, with a migrated database that the others are copied from.
let shared: Promise<{ postgres: EmbeddedPostgres; folder: string }> | null = null;
let openCount = 0;

export async function newTestFolder(): Promise<string> {
  return mkdtemp(path.join(os.tmpdir(), "liftbook-test-"));
}

export async function removeTestFolder(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true, maxRetries: 5 });
}

async function startShared() {
  const folder = await newTestFolder();
  // These databases need not outlive the machine.
  const postgres = await startEmbedded(folder, ["-c fsync=off", "-c max_connections=200"]);
  await migrate(postgres.url, MIGRATIONS);
  return { postgres, folder };
}

async function runSql(url: string, sql: string): Promise<void> {
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}

function inDatabase(url: string, database: string): string {
  const changed = new URL(url);
  changed.pathname = `/${database}`;
  return changed.toString();
}

/** Opens a migrated, empty database (about a second for the first of a file, a tenth for the others) and a data folder. */
export async function openTestHouse(options: { env?: Record<string, string> } = {}): Promise<TestHouse> {
  shared ??= startShared();
  openCount++;
  const { postgres } = await shared;
  const database = `test_${randomUUID().replaceAll("-", "")}`;
  const admin = inDatabase(postgres.url, "postgres");
  await runSql(admin, `CREATE DATABASE ${database} TEMPLATE liftbook`);
  const dataFolder = await newTestFolder();
  const databaseUrl = inDatabase(postgres.url, database);
  const env = {
    LIFTBOOK_DATA: dataFolder,
    DATABASE_URL: databaseUrl,
    LIFTBOOK_DEMO: "off",
    LIFTBOOK_LOG: "silent",
    PORT: "0",
  };
  const db = connectDatabase(databaseUrl);
  return {
    db,
    config: readConfig({ ...env, ...options.env }, OWN_FOLDER),
    async close() {
      await db.$disconnect();
      await removeTestFolder(dataFolder);
      openCount--;
      if (openCount > 0) return;
      const closing = shared;
      shared = null;
      const { postgres, folder } = await closing!;
      await postgres.stop();
      await removeTestFolder(folder);
    },
  };
}

/** A person's row, without a password: enough for services, which take who acts from the caller. */
export async function addTestUser(db: PrismaClient, name: string): Promise<User> {
  const id = randomUUID();
  return db.user.create({ data: { id, name, email: `${name.toLowerCase()}.${id.slice(0, 8)}@example.org` } });
}

/** A book of that person's own. */
export async function addTestBook(db: PrismaClient, makerId: string, title = "A book"): Promise<string> {
  const id = randomUUID();
  await db.book.create({
    data: { id, title, members: { create: { userId: makerId, role: "teacher", isMaker: true } } },
  });
  return id;
}

/** Who acts, for services. */
export function actorOf({ id, name, email }: User): Actor {
  return { userId: id, name, email };
}
