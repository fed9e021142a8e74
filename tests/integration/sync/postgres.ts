import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { connectDatabase } from "@/lib/server/db/connect";
import { startEmbedded } from "@/lib/server/db/embedded";
import type { PrismaClient } from "@/lib/server/db/generated/client";
import { migrate } from "@/lib/server/db/migrate";

export interface TestPostgres {
  db: PrismaClient;
  url: string;
  dataFolder: string;
  close(): Promise<void>;
}

/** A PostgreSQL of the test's own, with all tables and nothing in them. */
export async function openPostgres(): Promise<TestPostgres> {
  const dataFolder = await mkdtemp(join(tmpdir(), "liftbook-test-"));
  const server = await startEmbedded(dataFolder, ["-c", "fsync=off"]);
  await migrate(server.url, fileURLToPath(new URL("../../../prisma/migrations", import.meta.url)));
  const db = connectDatabase(server.url);
  return {
    db,
    url: server.url,
    dataFolder,
    async close() {
      await db.$disconnect();
      await server.stop();
      await rm(dataFolder, { recursive: true, force: true });
    },
  };
}

/** A song with a person, a book and a blob row of its own. */
export async function makeSong(db: PrismaClient, sha256: string = randomUUID()): Promise<string> {
  const id = randomUUID();
  await db.user.create({ data: { id, name: "Ann", email: `${id}@example.test` } });
  await db.book.create({ data: { id, title: "Book", members: { create: { userId: id, role: "teacher" } } } });
  await db.blob.upsert({
    where: { sha256 },
    create: { sha256, byteCount: 1n, mediaType: "audio/wav" },
    update: {},
  });
  await db.song.create({
    data: {
      id,
      bookId: id,
      title: "Song",
      recordSha256: sha256,
      durationSec: 1,
      sampleRateHz: 44_100,
      channelCount: 1,
      addedById: id,
    },
  });
  return id;
}
