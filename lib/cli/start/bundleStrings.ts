import { mkdir, rename } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { StepError } from "./child";

/** What is put together, and where the pages' server hands it out from; git does not keep it. */
const ENTRY = "lib/client/sound/stringsProcessor.ts";
export const BUNDLED_STRINGS = "public/sound/strings.js";

/**
 * Puts the audio thread's code together: one file with all that it imports, as `audioWorklet.addModule` takes it. Takes some
 * tens of milliseconds, so it is made anew at every start.
 * @param folder Liftbook's own folder
 * @param out the file to write
 * @throws {StepError} with what the bundler says
 */
export async function bundleStrings(folder: string, out = path.join(folder, BUNDLED_STRINGS)): Promise<void> {
  await mkdir(path.dirname(out), { recursive: true });
  await build({
    entryPoints: [path.join(folder, ENTRY)],
    outfile: `${out}.new`,
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    tsconfig: path.join(folder, "tsconfig.json"),
    logLevel: "silent",
  }).catch((fault: unknown) => {
    throw new StepError(
      `Putting the strings together failed: ${fault instanceof Error ? fault.message : fault}`,
    );
  });
  // Whole or not at all: a server that runs beside may be handing it out.
  await rename(`${out}.new`, out);
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  await bundleStrings(fileURLToPath(new URL("../../../", import.meta.url)));
