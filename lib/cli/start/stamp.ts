import { createHash } from "node:crypto";
import { readdir, readFile, stat } from "node:fs/promises";
import path from "node:path";

async function filesUnder(at: string, skip: ReadonlySet<string>): Promise<string[]> {
  const found = await stat(at).catch(() => null);
  if (!found) return [];
  if (!found.isDirectory()) return [at];
  const names = (await readdir(at)).sort();
  const inner = await Promise.all(
    names.map((name) => (skip.has(name) ? [] : filesUnder(path.join(at, name), skip))),
  );
  return inner.flat();
}

/**
 * SHA-256 over the names and bytes of files and of everything in folders; what is missing counts as missing.
 * @param sources paths relative to `folder`
 * @param skip names of files and folders that do not count
 */
export async function stampOf(
  folder: string,
  sources: readonly string[],
  skip: readonly string[] = [],
): Promise<string> {
  const hash = createHash("sha256");
  const skipped = new Set(skip);
  for (const source of sources) {
    for (const file of await filesUnder(path.join(folder, source), skipped)) {
      const bytes = await readFile(file);
      hash.update(`${path.relative(folder, file)}\0${bytes.length}\0`).update(bytes);
    }
  }
  return hash.digest("hex");
}

/** The stamp kept in a file; null where there is none. */
export async function keptStamp(file: string): Promise<string | null> {
  return readFile(file, "utf8").then(
    (text) => text.trim(),
    () => null,
  );
}
