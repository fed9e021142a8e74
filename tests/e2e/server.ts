import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";

/** A Liftbook as `npm start` runs it (after the install), in a process of its own. */
export interface RunningServer {
  url: string;
  dataFolder: string;
  /** Everything it printed so far. */
  printed(): string;
  /** As Ctrl-C: asks it to stop and resolves to its exit code. */
  stop(): Promise<number | null>;
  /** As a power cut: kill -9. */
  kill(): Promise<void>;
}

export async function newDataFolder(): Promise<string> {
  return mkdtemp(path.join(tmpdir(), "liftbook-e2e-"));
}

export async function removeDataFolder(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true, maxRetries: 5 });
}

/** Starts a server on a free port; resolves once it prints its address. */
export async function startServer(
  dataFolder: string,
  env: Record<string, string> = {},
  startTimeoutMs = 240_000,
): Promise<RunningServer> {
  const child: ChildProcess = spawn(process.execPath, ["--import", "tsx", "lib/cli/start.ts"], {
    env: {
      ...process.env,
      NODE_ENV: "production",
      LIFTBOOK_DATA: dataFolder,
      PORT: "0",
      LIFTBOOK_DEMO: "off",
      ...env,
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let output = "";
  const ended = new Promise<number | null>((resolve) => child.on("close", (code) => resolve(code)));
  const url = await new Promise<string>((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new Error(`The server did not start in time:\n${output}`)),
      startTimeoutMs,
    );
    const read = (chunk: Buffer) => {
      output += chunk.toString();
      const found = /https?:\/\/[^\s]+:\d+/.exec(output);
      if (found) {
        clearTimeout(timer);
        resolve(found[0]);
      }
    };
    child.stdout?.on("data", read);
    child.stderr?.on("data", read);
    void ended.then((code) => {
      clearTimeout(timer);
      reject(new Error(`The server ended with ${code}:\n${output}`));
    });
  });
  return {
    url,
    dataFolder,
    printed: () => output,
    stop() {
      child.kill("SIGINT");
      return ended;
    },
    async kill() {
      child.kill("SIGKILL");
      await ended;
    },
  };
}
