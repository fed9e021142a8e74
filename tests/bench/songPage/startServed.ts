import { spawn } from "node:child_process";
import path from "node:path";
import { newDataFolder, removeDataFolder } from "../../e2e/server";
import type { Served } from "./serve";

/** Starts the bench's Liftbook on a free port, with data of its own that goes with it. */
export async function startServed(minutes: number): Promise<{ served: Served; stop: () => Promise<void> }> {
  const dataFolder = await newDataFolder();
  const child = spawn(
    process.execPath,
    ["--import", "tsx", path.join(import.meta.dirname, "serve.ts"), String(minutes)],
    {
      env: {
        ...process.env,
        LIFTBOOK_DATA: dataFolder,
        PORT: "0",
        HOST: "127.0.0.1",
        LIFTBOOK_MAX_UPLOAD_MB: "2000",
      },
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  const ended = new Promise<number | null>((resolve) => child.once("close", resolve));
  const served = new Promise<Served>((resolve, reject) => {
    let printed = "";
    child.stdout.on("data", (chunk: Buffer) => {
      printed += chunk.toString();
      const line = printed.split("\n").find((each) => each.startsWith("{") && each.endsWith("}"));
      if (line) resolve(JSON.parse(line) as Served);
    });
    void ended.then((code) => reject(new Error(`the bench's Liftbook ended with ${code}:\n${printed}`)));
  });
  const stop = async () => {
    child.kill("SIGTERM");
    await ended;
    await removeDataFolder(dataFolder);
  };
  try {
    return { served: await served, stop };
  } catch (fault) {
    await stop();
    throw fault;
  }
}
