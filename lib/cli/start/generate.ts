import { stat, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { runScript } from "./child";
import { keptStamp, stampOf } from "./stamp";

const OWN_FOLDER = fileURLToPath(new URL("../../../", import.meta.url));
const GENERATED = "lib/server/db/generated";
const SOURCES = ["prisma/schema.prisma", "prisma/prisma.config.ts", "node_modules/prisma/package.json"];

/**
 * Makes the database client from the schema where it is missing or the schema changed.
 * @returns whether it had to be made
 * @throws {StepError}
 */
export async function generateClient(folder: string = OWN_FOLDER): Promise<boolean> {
  const stampFile = path.join(folder, GENERATED, "stamp");
  const stamp = await stampOf(folder, SOURCES);
  const there = await stat(path.join(folder, GENERATED, "client.ts")).catch(() => null);
  if (there && (await keptStamp(stampFile)) === stamp) return false;
  const prisma = createRequire(import.meta.url).resolve("prisma/build/index.js");
  await runScript("Making the database client", prisma, ["generate", "--config", "prisma/prisma.config.ts"], {
    cwd: folder,
    // Generating needs no schema engine, but the command line would try to download one.
    env: {
      PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
      PRISMA_HIDE_UPDATE_MESSAGE: "1",
      CHECKPOINT_DISABLE: "1",
    },
  });
  await writeFile(stampFile, `${stamp}\n`);
  return true;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    await generateClient();
  } catch (fault) {
    console.error(fault instanceof Error ? fault.message : fault);
    process.exitCode = 1;
  }
}
