import { spawn } from "node:child_process";

/** A program that a step of starting needs did not do its work; the message holds what it printed. */
export class StepError extends Error {
  override readonly name = "StepError";
}

/**
 * Runs a Node script in a process of its own; its output is shown only when it fails.
 * @param what names the step, to finish the sentence "... failed"
 * @throws {StepError}
 */
export async function runScript(
  what: string,
  script: string,
  args: readonly string[],
  options: { cwd: string; env?: Record<string, string>; signal?: AbortSignal },
): Promise<void> {
  const child = spawn(process.execPath, [script, ...args], {
    cwd: options.cwd,
    env: { ...process.env, ...options.env },
    stdio: ["ignore", "pipe", "pipe"],
    signal: options.signal,
  });
  let output = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (chunk) => (output += String(chunk)));
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once("error", reject);
    child.once("close", resolve);
  });
  if (code !== 0) throw new StepError(`${what} failed (exit ${code}):\n${output.trim()}`);
}
