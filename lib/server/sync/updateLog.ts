import * as Y from "yjs";
import type { Prisma, PrismaClient } from "../db/generated/client";

/** What a song's room starts from. */
export interface StoredSong {
  /** To be applied in this order: the snapshot, if any, then the log. */
  updates: Uint8Array[];
  /** How many rows of log stand behind the snapshot. */
  logRows: number;
}

/** The song went away (its row was deleted), so nothing can be written for it ever again. */
export class SongGone extends Error {
  constructor() {
    super("the song was removed");
  }
}

/** Where a song's updates are kept. */
export interface UpdateLog {
  load(songId: string): Promise<StoredSong>;
  /**
   * Adds one update at the end of the log; resolves when it is committed.
   * @throws {SongGone} when there is no such song any more
   */
  append(songId: string, update: Uint8Array): Promise<void>;
  /** Folds the log into the snapshot. The song reads the same before and after. */
  compact(songId: string): Promise<void>;
}

// One at a time for each song, in whatever process: a fold never meets an append half-way.
async function lockSong(tx: Prisma.TransactionClient, songId: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`song:${songId}`}, 0))`;
}

async function readSong(tx: Prisma.TransactionClient, songId: string) {
  const snapshot = await tx.docSnapshot.findUnique({ where: { songId } });
  const rows = await tx.docUpdate.findMany({
    where: { songId, ...(snapshot ? { id: { gt: snapshot.upToId } } : {}) },
    orderBy: { id: "asc" },
    select: { id: true, data: true },
  });
  return { snapshot, rows };
}

/** A busy machine is waited for; what takes longer counts as refused, and is tried again. */
const PATIENCE = { maxWait: 10_000, timeout: 15_000 };

const hasCode = (fault: unknown, code: string) =>
  typeof fault === "object" && fault !== null && "code" in fault && fault.code === code;

/** The log in PostgreSQL: `DocUpdate` rows behind a `DocSnapshot`. */
export function createUpdateLog(db: PrismaClient): UpdateLog {
  return {
    async load(songId) {
      return db.$transaction(async (tx) => {
        await lockSong(tx, songId);
        const { snapshot, rows } = await readSong(tx, songId);
        return {
          updates: [...(snapshot ? [snapshot.data] : []), ...rows.map((row) => row.data)],
          logRows: rows.length,
        };
      }, PATIENCE);
    },

    async append(songId, update) {
      try {
        await db.$transaction(async (tx) => {
          await lockSong(tx, songId);
          await tx.docUpdate.create({ data: { songId, data: new Uint8Array(update) }, select: { id: true } });
        }, PATIENCE);
      } catch (fault) {
        // Prisma's code for a foreign key that points nowhere.
        if (hasCode(fault, "P2003")) throw new SongGone();
        throw fault;
      }
    },

    async compact(songId) {
      await db.$transaction(async (tx) => {
        await lockSong(tx, songId);
        const { snapshot, rows } = await readSong(tx, songId);
        const last = rows.at(-1);
        if (!last) return;
        const doc = new Y.Doc();
        doc.transact(() => {
          if (snapshot) Y.applyUpdate(doc, snapshot.data);
          for (const row of rows) Y.applyUpdate(doc, row.data);
        });
        const data = new Uint8Array(Y.encodeStateAsUpdate(doc));
        doc.destroy();
        await tx.docSnapshot.upsert({
          where: { songId },
          create: { songId, data, upToId: last.id },
          update: { data, upToId: last.id },
        });
        await tx.docUpdate.deleteMany({ where: { songId, id: { lte: last.id } } });
      }, PATIENCE);
    },
  };
}
