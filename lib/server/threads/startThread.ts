import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Worker, type WorkerOptions } from "node:worker_threads";

/**
 * Liftbook's own folder: above this file, or, where a bundler has moved it, the folder the server was started in.
 */
function ownFolder(file: string): string {
  const here = fileURLToPath(import.meta.url);
  for (let folder = path.dirname(here); folder !== path.dirname(folder); folder = path.dirname(folder)) {
    if (existsSync(path.join(folder, file))) return folder;
  }
  return process.cwd();
}

/** {@link startThread}, with what the thread prints thrown away: decoders print what they stumble over. */
export function startQuietThread(
  file: string,
  options: Pick<WorkerOptions, "workerData" | "resourceLimits">,
): Worker {
  const worker = startThread(file, { ...options, stdout: true, stderr: true });
  worker.stdout.resume();
  worker.stderr.resume();
  return worker;
}

/**
 * Starts a worker thread on one of our TypeScript files. `--import tsx` in `execArgv` does nothing inside a thread
 * on Node 20, so the thread's first act is to register the loader itself, and then it imports the file.
 * @param file from Liftbook's own folder, as in `lib/server/media/decodeWorker.ts`
 */
export function startThread(file: string, options: Omit<WorkerOptions, "eval" | "execArgv"> = {}): Worker {
  const root = ownFolder(file);
  const tsx = path.dirname(createRequire(path.join(root, "package.json")).resolve("tsx/package.json"));
  const loader = pathToFileURL(path.join(tsx, "dist/esm/api/index.mjs")).href;
  const target = pathToFileURL(path.join(root, file)).href;
  const body = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(target)}); });`;
  return new Worker(body, {
    ...options,
    eval: true,
    execArgv: [],
    // Where the loader finds the meaning of "@/".
    env: { ...process.env, TSX_TSCONFIG_PATH: path.join(root, "tsconfig.json") },
  });
}
