import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import { Client } from "pg";

/** The database cannot be brought up to date; the message says why and what to do. */
export class MigrationError extends Error {
  override readonly name = "MigrationError";
}

export interface Migration {
  /** Its folder's name, which sorts in the order of application. */
  name: string;
  sql: string;
  /** SHA-256 of the file in hexadecimal, as Prisma Migrate records it. */
  checksum: string;
}

// Prisma Migrate's own table, column for column, so that its command line agrees with what was applied here.
const HISTORY_TABLE = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  id VARCHAR(36) PRIMARY KEY NOT NULL,
  checksum VARCHAR(64) NOT NULL,
  finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL,
  logs TEXT,
  rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(),
  applied_steps_count INTEGER NOT NULL DEFAULT 0
)`;

// The number that Prisma Migrate locks too, so that the two never run at the same time.
const LOCK = 72707369;

/** The committed migrations, in order. */
export async function readMigrations(folder: string): Promise<Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  return Promise.all(
    names.sort().map(async (name) => {
      const bytes = await readFile(path.join(folder, name, "migration.sql"));
      return {
        name,
        sql: bytes.toString("utf8"),
        checksum: createHash("sha256").update(bytes).digest("hex"),
      };
    }),
  );
}

interface HistoryRow {
  migration_name: string;
  checksum: string;
  finished_at: Date | null;
}

function check(rows: readonly HistoryRow[], migrations: readonly Migration[]): void {
  const byName = new Map(migrations.map((migration) => [migration.name, migration]));
  for (const row of rows) {
    const known = byName.get(row.migration_name);
    if (row.finished_at === null)
      throw new MigrationError(
        `The migration ${row.migration_name} was begun here by another tool and never finished. Nothing was changed. Settle it with "prisma migrate resolve", then start again.`,
      );
    if (!known)
      throw new MigrationError(
        `This database was used by a newer Liftbook: it holds the migration ${row.migration_name}, which this one does not know. Nothing was changed. Start the newer Liftbook, or restore a backup.`,
      );
    if (known.checksum !== row.checksum)
      throw new MigrationError(
        `The migration ${row.migration_name} was changed after it had been applied to this database. Nothing was changed. Put the file back as it was, and write the change as a new migration.`,
      );
  }
}

/**
 * Brings a database up to date: each committed migration that is not recorded yet runs in a transaction of its own
 * and is recorded in it.
 * @param folder prisma/migrations
 * @returns the names of those applied now
 * @throws {MigrationError} where history and folder disagree, or a migration fails; that one is then undone whole
 */
export async function migrate(databaseUrl: string, folder: string): Promise<string[]> {
  const migrations = await readMigrations(folder);
  const client = new Client({ connectionString: databaseUrl });
  // A line that breaks is told by the statement under way; without a listener it would end the process as well.
  client.on("error", () => {});
  await client.connect().catch((fault: Error) => {
    // The address may hold a password: only where it leads is shown.
    const where = URL.canParse(databaseUrl) ? new URL(databaseUrl).host : "its address";
    throw new MigrationError(
      `The database at ${where} does not let Liftbook in: ${fault.message}. Nothing was changed. Check that it runs, and DATABASE_URL where that is set.`,
      { cause: fault },
    );
  });
  try {
    await client.query("SELECT pg_advisory_lock($1)", [LOCK]);
    await client.query(HISTORY_TABLE).catch((fault: Error) => {
      throw new MigrationError(
        `Liftbook may not make its tables in that database: ${fault.message}. Nothing was changed. Let the user that DATABASE_URL names own the database, as in "CREATE DATABASE liftbook OWNER liftbook".`,
        { cause: fault },
      );
    });
    const { rows } = await client.query<HistoryRow>(
      `SELECT migration_name, checksum, finished_at FROM "_prisma_migrations" WHERE rolled_back_at IS NULL`,
    );
    check(rows, migrations);
    const applied = new Set(rows.map((row) => row.migration_name));
    const waiting = migrations.filter((migration) => !applied.has(migration.name));
    for (const migration of waiting) await apply(client, migration);
    return waiting.map((migration) => migration.name);
  } finally {
    // Ending the connection gives the lock back.
    await client.end();
  }
}

async function apply(client: Client, migration: Migration): Promise<void> {
  await client.query("BEGIN");
  try {
    await client.query(migration.sql);
    await client.query(
      `INSERT INTO "_prisma_migrations" (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
       VALUES ($1, $2, $3, now(), clock_timestamp(), 1)`,
      [randomUUID(), migration.checksum, migration.name],
    );
    await client.query("COMMIT");
  } catch (fault) {
    await client.query("ROLLBACK").catch(() => undefined);
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new MigrationError(
      `The migration ${migration.name} failed: ${why}. It was undone, and the database is as it was before it.`,
      { cause: fault },
    );
  }
}
