import { mkdir, rename } from "node:fs/promises";
import path from "node:path";
import { type BuildOptions, build } from "esbuild";
import { StepError } from "./child";

/**
 * Puts a script for the browser together: one file with all that it imports. Takes some tens of milliseconds.
 * @param folder Liftbook's own folder
 * @param entry the module that it begins with, from that folder on
 * @param out the file to write, as a whole path
 * @throws {StepError} with what the bundler says
 */
export async function bundle(
  folder: string,
  entry: string,
  out: string,
  options: Pick<BuildOptions, "format" | "define">,
): Promise<void> {
  await mkdir(path.dirname(out), { recursive: true });
  await build({
    ...options,
    entryPoints: [path.join(folder, entry)],
    outfile: `${out}.new`,
    bundle: true,
    minify: true,
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
