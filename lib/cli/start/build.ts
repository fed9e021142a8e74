import { mkdir, rm, stat, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { OFFLINE_BUNDLE } from "./bundleOffline";
import { WORKLETS } from "./bundleWorklets";
import { runScript } from "./child";
import { keptStamp, stampOf } from "./stamp";

const SOURCES = [
  "app",
  "lib",
  "public",
  "prisma/schema.prisma",
  "next.config.ts",
  "tsconfig.json",
  "package.json",
  "package-lock.json",
];
// What is made from the schema or from other sources, and what only the command line uses.
const SKIPPED = [
  "generated",
  "cli",
  path.basename(OFFLINE_BUNDLE),
  ...WORKLETS.map(({ bundle }) => path.basename(bundle)),
];

/**
 * Builds the pages where there is no build or anything that goes into it changed.
 * @param folder Liftbook's own folder
 * @returns whether it had to build
 * @throws {StepError} with what the build printed
 */
export async function buildPages(folder: string, signal?: AbortSignal): Promise<boolean> {
  const stampFile = path.join(folder, ".next", "liftbook-stamp");
  const stamp = await stampOf(folder, SOURCES, SKIPPED);
  const built = await stat(path.join(folder, ".next", "BUILD_ID")).catch(() => null);
  if (built && (await keptStamp(stampFile)) === stamp) return false;
  await mkdir(path.dirname(stampFile), { recursive: true });
  await rm(stampFile, { force: true });
  const next = createRequire(import.meta.url).resolve("next/dist/bin/next");
  const env = { NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" };
  await runScript("Building the pages", next, ["build"], { cwd: folder, env, signal });
  await writeFile(stampFile, `${stamp}\n`);
  return true;
}
