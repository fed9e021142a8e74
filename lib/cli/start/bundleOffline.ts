import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import { type BuildFiles, WORKER_PATH } from "@/lib/contracts/offline";
import { bundle } from "./bundle";

/** Where the pages' server hands the service worker out from; git does not keep it. */
export const OFFLINE_BUNDLE = `public${WORKER_PATH}`;

/** Scripts and styles, and of the fonts what most pages are set in; the browser has others where it met them. */
const KEPT_FILES = /\.(js|css|wasm)$|-latin-[\w-]+\.[\w-]+\.woff2$/;

/**
 * Puts the service worker together, with the names of all files that the pages of the build at hand consist of.
 * @param folder Liftbook's own folder, with the built pages and the worklets
 * @throws {StepError} with what the bundler says
 */
export async function bundleOffline(folder: string): Promise<void> {
  await bundle(folder, "lib/client/offline/serviceWorker.ts", path.join(folder, OFFLINE_BUNDLE), {
    format: "iife",
    define: { LIFTBOOK_BUILD: JSON.stringify(await buildFiles(folder)) },
  });
}

/** The files of the pages' build, by the addresses they are handed out under. */
async function buildFiles(folder: string): Promise<BuildFiles> {
  const id = (await readFile(path.join(folder, ".next/BUILD_ID"), "utf8")).trim();
  const [made, sound] = await Promise.all([
    readdir(path.join(folder, ".next/static"), { recursive: true }),
    readdir(path.join(folder, "public/sound")),
  ]);
  const named = (names: string[], under: string) =>
    names
      .map((name) => under + name.replaceAll(path.sep, "/"))
      .filter((address) => KEPT_FILES.test(address))
      .sort();
  return {
    id,
    hashed: named(made, "/_next/static/"),
    plain: [...named(sound, "/sound/"), "/theme.js", "/icon.svg", "/manifest.webmanifest"],
  };
}
