import { randomBytes } from "node:crypto";
import { mkdir, open, readFile, rename } from "node:fs/promises";
import path from "node:path";

/** Makes the data folder where it is missing; only its owner may enter it. */
export async function makeDataFolder(dataFolder: string): Promise<void> {
  await mkdir(dataFolder, { recursive: true, mode: 0o700 });
}

/**
 * A secret that the server made for itself and keeps in `<data>/secrets`, readable by its owner alone: 256 random
 * bits in hexadecimal, made at the first call.
 */
export async function keptSecret(dataFolder: string, name: string): Promise<string> {
  const folder = path.join(dataFolder, "secrets");
  const file = path.join(folder, name);
  const kept = await readFile(file, "utf8").catch((fault: NodeJS.ErrnoException) => {
    if (fault.code === "ENOENT") return null;
    throw fault;
  });
  if (kept !== null) return kept.trim();
  const secret = randomBytes(32).toString("hex");
  await mkdir(folder, { recursive: true, mode: 0o700 });
  // Written whole before it gets its name, so that a crash leaves no half of a secret.
  const draft = await open(`${file}.new`, "w", 0o600);
  try {
    await draft.writeFile(`${secret}\n`);
    await draft.sync();
  } finally {
    await draft.close();
  }
  await rename(`${file}.new`, file);
  return secret;
}
