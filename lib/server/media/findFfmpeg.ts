import { access, constants } from "node:fs/promises";
import path from "node:path";

const found = new Map<string, Promise<string | null>>();

/**
 * Where a program of that name or path lies; looked up once. Null where there is none.
 * @param nameOrPath as set; null where ffmpeg must not be used
 */
export function findFfmpeg(nameOrPath: string | null): Promise<string | null> {
  if (nameOrPath === null) return Promise.resolve(null);
  let search = found.get(nameOrPath);
  if (!search) {
    search = look(nameOrPath);
    found.set(nameOrPath, search);
  }
  return search;
}

async function look(nameOrPath: string): Promise<string | null> {
  const folders = nameOrPath.includes(path.sep) ? [""] : (process.env.PATH ?? "").split(path.delimiter);
  for (const folder of folders) {
    const file = path.resolve(folder, nameOrPath);
    const usable = await access(file, constants.X_OK).then(
      () => true,
      () => false,
    );
    if (usable) return file;
  }
  return null;
}
