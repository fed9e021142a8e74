/**
 * Makes the next migration from prisma/schema.prisma without Prisma's downloaded schema engine:
 *
 *   npx tsx prisma/makeMigration.ts NAME
 *
 * The committed migrations are replayed into an empty shadow database of an embedded PostgreSQL in a temporary folder, compared with
 * the schema, and the difference is written to prisma/migrations/<UTC time>_NAME/migration.sql. Read it before
 * committing it; a committed migration must never change again.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { PrismaPg } from "@prisma/adapter-pg";
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from "@prisma/driver-adapter-utils";
import type { DiffTarget } from "@prisma/schema-engine-wasm";
import type { QueryConfig, QueryResult } from "pg";
import { startEmbedded } from "@/lib/server/db/embedded";
import { readMigrations } from "@/lib/server/db/migrate";

const HERE = path.dirname(fileURLToPath(import.meta.url));
const SCHEMA = path.join(HERE, "schema.prisma");
const MIGRATIONS = path.join(HERE, "migrations");
const LOCK_FILE = path.join(MIGRATIONS, "migration_lock.toml");

async function loadEngine() {
  // Where the engine leaves its last words when it fails.
  Object.assign(globalThis, {
    PRISMA_WASM_PANIC_REGISTRY: { set_message: (words: string) => console.error(words) },
  });
  const engine = await import("@prisma/schema-engine-wasm/schema_engine_bg");
  const near = createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm");
  const bytes = await readFile(path.join(path.dirname(near), "schema_engine_bg.wasm"));
  const { instance } = await WebAssembly.instantiate(bytes, { "./schema_engine_bg.js": engine as never });
  engine.__wbg_set_wasm(instance.exports);
  (instance.exports.__wbindgen_start as () => void)();
  return engine.SchemaEngine;
}

// PostgreSQL's catalogues hold columns of the type "char" (OID 18). The adapter does not know it; the engine expects
// it as a character. So it passes the adapter as text (OID 25) and is given its true name afterwards.
function readChars(adapter: Awaited<ReturnType<PrismaPg["connect"]>>): typeof adapter {
  const charColumns = new WeakMap<unknown[], number[]>();
  const pool = adapter.underlyingDriver();
  const query = pool.query.bind(pool) as (config: QueryConfig) => Promise<QueryResult>;
  pool.query = (async (config: QueryConfig) => {
    const result = await query(config);
    const chars = (result.fields ?? []).flatMap((field, i) => (field.dataTypeID === 18 ? [i] : []));
    for (const i of chars) result.fields[i]!.dataTypeID = 25;
    if (chars.length > 0) charColumns.set(result.rows, chars);
    return result;
  }) as typeof pool.query;
  const queryRaw = adapter.queryRaw.bind(adapter);
  adapter.queryRaw = async (asked) => {
    const result = await queryRaw(asked);
    for (const i of charColumns.get(result.rows) ?? []) result.columnTypes[i] = ColumnTypeEnum.Character;
    return result;
  };
  return adapter;
}

function engineAdapter(databaseUrl: string) {
  const factory = new PrismaPg({ connectionString: databaseUrl });
  const connect = factory.connect.bind(factory);
  const connectToShadowDb = factory.connectToShadowDb.bind(factory);
  factory.connect = async () => readChars(await connect());
  factory.connectToShadowDb = async () => readChars(await connectToShadowDb());
  return bindMigrationAwareSqlAdapterFactory(factory);
}

async function committed(): Promise<DiffTarget> {
  const migrations = await readMigrations(MIGRATIONS);
  return {
    tag: "migrations",
    baseDir: MIGRATIONS,
    lockfile: { path: "migration_lock.toml", content: await readFile(LOCK_FILE, "utf8") },
    shadowDbInitScript: "",
    migrationDirectories: migrations.map(({ name, sql }) => ({
      path: name,
      migrationFile: { path: "migration.sql", content: { tag: "ok", value: sql } },
    })),
  };
}

/** SQL that leads from the committed migrations to the schema; empty where they agree. */
async function difference(): Promise<string> {
  const SchemaEngine = await loadEngine();
  const dataFolder = await mkdtemp(path.join(os.tmpdir(), "liftbook-migration-"));
  try {
    const postgres = await startEmbedded(dataFolder);
    try {
      const content = await readFile(SCHEMA, "utf8");
      const files = [{ path: SCHEMA, content }];
      const engine = await SchemaEngine.new(
        { datamodels: [[SCHEMA, content]] },
        () => undefined,
        engineAdapter(postgres.url),
      );
      const filters = { externalTables: [], externalEnums: [] };
      const to: DiffTarget = { tag: "schemaDatamodel", files };
      const { stdout } = await engine.diff({
        from: await committed(),
        to,
        script: true,
        exitCode: null,
        filters,
      });
      return stdout && !stdout.includes("This is an empty migration") ? stdout : "";
    } finally {
      await postgres.stop();
    }
  } finally {
    await rm(dataFolder, { recursive: true, force: true });
  }
}

async function main(): Promise<number> {
  const name = process.argv[2];
  if (!name || !/^[a-z][a-z0-9_]*$/.test(name)) {
    console.error(
      "Name the migration in small letters and underscores: npx tsx prisma/makeMigration.ts add_something",
    );
    return 2;
  }
  await mkdir(MIGRATIONS, { recursive: true });
  await writeFile(LOCK_FILE, `# For Prisma's command line. Do not edit.\nprovider = "postgresql"\n`);
  const sql = await difference();
  if (sql === "") {
    console.log("The migrations agree with the schema; there is nothing to make.");
    return 0;
  }
  const time = new Date().toISOString().replace(/\D/g, "").slice(0, 14);
  const folder = path.join(MIGRATIONS, `${time}_${name}`);
  await mkdir(folder);
  await writeFile(path.join(folder, "migration.sql"), sql);
  console.log(`Written: ${path.relative(process.cwd(), folder)}/migration.sql`);
  return 0;
}

process.exitCode = await main();
