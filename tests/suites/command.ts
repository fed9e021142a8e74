import { spawn } from "node:child_process";
import path from "node:path";
import type { Suite, Tally } from "./Suite";

const BIN = path.resolve("node_modules/.bin");

/** Runs a program of node_modules/.bin with its output shown; resolves to its exit code (1 when killed). */
export function runTool(
  tool: string,
  args: readonly string[],
  env: Record<string, string> = {},
): Promise<number> {
  return new Promise((resolve) => {
    const child = spawn(path.join(BIN, tool), args, {
      stdio: "inherit",
      // Colours are for a terminal; in a log they are noise.
      env: { ...process.env, ...(process.stdout.isTTY ? {} : { NO_COLOR: "1", FORCE_COLOR: "0" }), ...env },
    });
    child.on("error", (fault) => {
      console.error(`${tool} could not be started: ${fault.message}`);
      resolve(1);
    });
    child.on("close", (code) => resolve(code ?? 1));
  });
}

/** A suite that is one command: it holds when the command exits 0. */
export function commandSuite(name: string, tool: string, args: readonly string[]): Suite {
  return {
    name,
    async run(): Promise<Tally> {
      const code = await runTool(tool, args);
      return {
        passed: code === 0 ? 1 : 0,
        failed: code === 0 ? 0 : 1,
        skipped: 0,
        faults: code === 0 ? [] : [`${tool} ${args.join(" ")} ended with ${code}`],
      };
    },
  };
}
