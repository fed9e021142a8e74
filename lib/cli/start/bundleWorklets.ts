import { mkdir, rename } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { StepError } from "./child";

/** What is put together for the audio thread, and where the pages' server hands it out from; git does not keep it. */
export const WORKLETS = [
  { entry: "lib/client/sound/stringsProcessor.ts", bundle: "public/sound/strings.js" },
  { entry: "lib/client/playback/recordProcessor.ts", bundle: "public/sound/record.js" },
] as const;

/**
 * Puts the audio thread's code together: of each processor one file with all that it imports, as `audioWorklet.addModule`
 * takes it. Takes some tens of milliseconds, so it is made anew at every start.
 * @param folder Liftbook's own folder
 * @throws {StepError} with what the bundler says
 */
export async function bundleWorklets(folder: string): Promise<void> {
  for (const { entry, bundle } of WORKLETS) await bundleWorklet(folder, entry, path.join(folder, bundle));
}

/** Puts one processor together. @param out the file to write @throws {StepError} with what the bundler says */
export async function bundleWorklet(folder: string, entry: string, out: string): Promise<void> {
  await mkdir(path.dirname(out), { recursive: true });
  await build({
    entryPoints: [path.join(folder, entry)],
    outfile: `${out}.new`,
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    tsconfig: path.join(folder, "tsconfig.json"),
    logLevel: "silent",
  }).catch((fault: unknown) => {
    throw new StepError(
      `Putting ${path.basename(out)} together failed: ${fault instanceof Error ? fault.message : fault}`,
    );
  });
  // Whole or not at all: a server that runs beside may be handing it out.
  await rename(`${out}.new`, out);
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  await bundleWorklets(fileURLToPath(new URL("../../../", import.meta.url)));
