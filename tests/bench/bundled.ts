import path from "node:path";
import { build } from "esbuild";

const ROOT = path.resolve(import.meta.dirname, "../..");

/** A file of ours with all that it imports, as a browser takes it. */
export async function bundled(file: string): Promise<Buffer> {
  const { outputFiles } = await build({
    entryPoints: [path.join(ROOT, file)],
    bundle: true,
    format: "esm",
    target: "es2022",
    write: false,
    tsconfig: path.join(ROOT, "tsconfig.json"),
    logLevel: "error",
  });
  return Buffer.from(outputFiles[0]!.contents);
}
