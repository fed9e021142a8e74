import { readdir, readFile, rename } from "node:fs/promises";
import path from "node:path";
import { build } from "esbuild";
import { type BuildFiles, WORKER_PATH } from "@/lib/contracts/offline";
import { StepError } from "./child";

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
  const out = path.join(folder, OFFLINE_BUNDLE);
  await build({
    entryPoints: [path.join(folder, "lib/client/offline/serviceWorker.ts")],
    outfile: `${out}.new`,
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2022",
    tsconfig: path.join(folder, "tsconfig.json"),
    logLevel: "silent",
    define: { LIFTBOOK_BUILD: JSON.stringify(await buildFiles(folder)) },
  }).catch((fault: unknown) => {
    throw new StepError(
      `Putting ${path.basename(out)} together failed: ${fault instanceof Error ? fault.message : fault}`,
    );
  });
  await rename(`${out}.new`, out);
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
