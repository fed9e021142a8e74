/**
 * `npm start`: makes what is missing, opens the server, prints its address and how to sign in, and stops cleanly
 * on Ctrl-C. `--dev` serves pages that are built as they are asked for.
 */
import path from "node:path";
import { fileURLToPath } from "node:url";
import { type Config, ConfigError, readConfig } from "@/lib/server/config/config";
import { buildPages } from "./start/build";
import { bundleOffline } from "./start/bundleOffline";
import { bundleWorklets } from "./start/bundleWorklets";
import { StepError } from "./start/child";
import { Closers } from "./start/closers";
import { generateClient } from "./start/generate";
import { AlreadyRunning, lockDataFolder } from "./start/instanceLock";
import { stopSignal } from "./start/stopSignal";

const OWN_FOLDER = fileURLToPath(new URL("../../", import.meta.url));

const say = (words: string) => console.log(`  ${words}`);

/** Names of faults whose message is written for whoever runs the server. */
const IN_WORDS = new Set([
  ConfigError.name,
  StepError.name,
  AlreadyRunning.name,
  "ListenError",
  "MigrationError",
  "NoPostgresError",
  "PostgresError",
  "PostgresUserError",
]);

/** A path as short as it can be said from here. */
function shownPath(full: string): string {
  const relative = path.relative(process.cwd(), full);
  return relative.startsWith("..") ? full : relative || ".";
}

async function timed<T>(
  work: () => Promise<T>,
  words: (result: T, seconds: string) => string | null,
): Promise<T> {
  const startedMs = Date.now();
  const result = await work();
  const said = words(result, `${((Date.now() - startedMs) / 1000).toFixed(1)} s`);
  if (said !== null) say(said);
  return result;
}

async function open(
  config: Config,
  development: boolean,
  closers: Closers,
  signal: AbortSignal,
): Promise<void> {
  const lock = await lockDataFolder(config.dataFolder);
  closers.add("the lock", lock.release);
  await timed(generateClient, (made, seconds) => (made ? `Database client: made (${seconds})` : null));
  signal.throwIfAborted();
  await bundleWorklets(OWN_FOLDER);
  if (!development) {
    say("Pages: looking whether they need building (the first time takes up to a minute)");
    await timed(
      () => buildPages(OWN_FOLDER, signal),
      (built, seconds) => (built ? `Pages: built (${seconds})` : "Pages: as built before"),
    );
    await bundleOffline(OWN_FOLDER);
  }
  // Both need the generated client, which may not have been there when this file was loaded.
  const [{ startServer }, { seedDemo, wantsDemo }] = await Promise.all([
    import("./start/serve"),
    import("@/prisma/seed/seedDemo"),
  ]);
  let accounts: { name: string; email: string; password: string }[] = [];
  const running = await startServer({
    config,
    folder: OWN_FOLDER,
    development,
    onStep: say,
    async beforeAnswering(house) {
      signal.throwIfAborted();
      if (!(await wantsDemo(house))) return;
      say("Demo: the band plays its record (a few seconds)");
      accounts = await seedDemo(house, signal).catch((fault: unknown) => {
        signal.throwIfAborted();
        house.log.error({ err: fault }, "the demo could not be made");
        say("Demo: could not be made; Liftbook goes on without it and tries again at the next start");
        return [];
      });
    },
  });
  closers.add("the server", running.stop);
  signal.throwIfAborted();
  await lock.note(running.url);
  console.log(`\nLiftbook is running at ${running.url}`);
  say(`Everything is kept in ${shownPath(config.dataFolder)}`);
  if (accounts.length > 0) {
    console.log("\nTo look around, sign in as one of the demo's people (shown this once):");
    for (const { name, email, password } of accounts) say(`${name}: ${email}  password ${password}`);
  } else {
    const signUp = config.signUp === "open" ? `, or make an account at ${running.url}/sign-up` : "";
    say(`Sign in at ${running.url}/sign-in${signUp}`);
  }
  console.log("\nCtrl-C stops it.");
}

async function main(): Promise<number> {
  const development = process.argv.includes("--dev");
  // React and Next read this when they are loaded.
  Object.assign(process.env, {
    NODE_ENV: development ? "development" : "production",
    NEXT_TELEMETRY_DISABLED: "1",
  });
  const closers = new Closers();
  const stopping = stopSignal();
  try {
    console.log("Liftbook starts");
    await open(readConfig(process.env, OWN_FOLDER), development, closers, stopping.signal);
    await stopping.asked;
  } catch (fault) {
    if (!stopping.signal.aborted) {
      const inWords = fault instanceof Error && IN_WORDS.has(fault.name);
      console.error(inWords ? `\n${fault.message}` : fault);
      return 1;
    }
  } finally {
    if (stopping.signal.aborted) console.log("\nStopping; a second Ctrl-C ends it at once");
    await closers.close((what, fault) =>
      console.error(`While stopping ${what}: ${fault instanceof Error ? fault.message : fault}`),
    );
  }
  console.log("Stopped. Everything is kept.");
  return 0;
}

const code = await main();
// Libraries may leave timers behind; all that matters is closed by now.
process.exit(code);
