import path from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "./bundle";

/** What is put together for the audio thread, and where the pages' server hands it out from; git does not keep it. */
export const WORKLETS = [
  { entry: "lib/client/sound/stringsProcessor.ts", bundle: "public/sound/strings.js" },
  { entry: "lib/client/playback/recordProcessor.ts", bundle: "public/sound/record.js" },
  { entry: "lib/client/takes/takeProcessor.ts", bundle: "public/sound/take.js" },
] as const;

/**
 * Puts the audio thread's code together: of each processor one file with all that it imports, as `audioWorklet.addModule`
 * takes it, made anew at every start.
 * @param folder Liftbook's own folder
 * @throws {StepError} with what the bundler says
 */
export async function bundleWorklets(folder: string): Promise<void> {
  for (const worklet of WORKLETS)
    await bundleWorklet(folder, worklet.entry, path.join(folder, worklet.bundle));
}

/** Puts one processor together. @param out the file to write @throws {StepError} with what the bundler says */
export async function bundleWorklet(folder: string, entry: string, out: string): Promise<void> {
  await bundle(folder, entry, out, { format: "esm" });
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  await bundleWorklets(fileURLToPath(new URL("../../../", import.meta.url)));
