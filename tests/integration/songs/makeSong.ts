import { randomUUID } from "node:crypto";
import type { PrismaClient } from "@/lib/server/db/generated/client";
import { addTestBook, addTestUser } from "../testHouse";

/** The row of a song in a book of its own; its record is a name only, unless bytes of that name are kept. */
export async function makeSong(db: PrismaClient, sha256: string = randomUUID()): Promise<string> {
  const ann = await addTestUser(db, "Ann");
  await db.blob.create({ data: { sha256, byteCount: 1n, mediaType: "audio/wav" } });
  const song = await db.song.create({
    data: {
      id: randomUUID(),
      bookId: await addTestBook(db, ann.id),
      title: "Song",
      recordSha256: sha256,
      durationSec: 1,
      sampleRateHz: 44_100,
      channelCount: 1,
      addedById: ann.id,
    },
  });
  return song.id;
}
