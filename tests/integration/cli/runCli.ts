import { execFile } from "node:child_process";
import path from "node:path";

export interface CliResult {
  /** Exit status. */
  code: number;
  stdout: string;
  stderr: string;
}

/** Runs the command line as `npm run -s cli --` does, in a process of its own, without any database setting. */
export function runCli(...args: string[]): Promise<CliResult> {
  const { DATABASE_URL: _, ...env } = process.env;
  return new Promise((resolve) => {
    execFile(
      path.resolve("node_modules/.bin/tsx"),
      ["lib/cli/main.ts", ...args],
      { env: { ...env, DATABASE_URL: "postgres://nobody@127.0.0.1:1/none" }, maxBuffer: 2 ** 26 },
      (fault, stdout, stderr) => {
        const code = fault ? (typeof fault.code === "number" ? fault.code : -1) : 0;
        resolve({ code, stdout, stderr });
      },
    );
  });
}
