import path from "node:path";
import { defineConfig } from "prisma/config";

/** For Prisma's own CLI; Liftbook itself applies migrations by lib/server/db/migrate.ts. */
export default defineConfig({
  schema: path.join("schema.prisma"),
  migrations: { path: "migrations" },
  ...(process.env.DATABASE_URL ? { datasource: { url: process.env.DATABASE_URL } } : {}),
});
