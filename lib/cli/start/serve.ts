import path from "node:path";
import { type Logger, pino } from "pino";
import { createAuth } from "@/lib/server/auth/auth";
import { readSession } from "@/lib/server/auth/session";
import type { Config } from "@/lib/server/config/config";
import { keptSecret } from "@/lib/server/config/dataFolder";
import { connectDatabase } from "@/lib/server/db/connect";
import { startEmbedded } from "@/lib/server/db/embedded";
import { migrate } from "@/lib/server/db/migrate";
import { openEarFiles } from "@/lib/server/hearing/earFiles";
import { type House, openHouse } from "@/lib/server/house";
import { ownOrigins } from "@/lib/server/http/ownOrigins";
import { createJobs } from "@/lib/server/jobs/jobs";
import { songMember } from "@/lib/server/services/memberOf";
import { forgetAllUnused } from "@/lib/server/storage/blobRows";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";
import { createEarCopies } from "@/lib/server/storage/earCopies";
import { createIntake } from "@/lib/server/storage/intake";
import { createHub } from "@/lib/server/sync/hub";
import { Closers } from "./closers";
import { listen } from "./listen";
import { openPages } from "./openPages";

export interface ServeOptions {
  config: Config;
  /** Liftbook's own folder, with the built pages. */
  folder: string;
  /** Pages are built as they are asked for. */
  development?: boolean;
  log?: Logger;
  /** Told of each step as it is done, in words. */
  onStep?: (words: string) => void;
  /** Called once everything works, before the first request is answered. */
  beforeAnswering?: (house: House) => Promise<void>;
}

/** A Liftbook that answers. */
export interface RunningLiftbook {
  /** The address to give out. */
  url: string;
  house: House;
  stop(): Promise<void>;
}

async function openDatabase(
  { config, folder, onStep = () => {} }: ServeOptions,
  closers: Closers,
): Promise<string> {
  let url = config.databaseUrl;
  if (url === null) {
    const postgres = await startEmbedded(config.dataFolder);
    closers.add("the database", postgres.stop);
    url = postgres.url;
    onStep(postgres.takenOver ? "Database: took over the one that still ran" : "Database: started");
  } else onStep("Database: the one that DATABASE_URL names");
  const applied = await migrate(url, path.join(folder, "prisma", "migrations"));
  if (applied.length > 0) onStep(`Database: brought up to date (${applied.join(", ")})`);
  return url;
}

async function open(options: ServeOptions, closers: Closers): Promise<Omit<RunningLiftbook, "stop">> {
  const { config, folder, development = false } = options;
  const log = options.log ?? pino({ level: config.logLevel }, pino.destination({ dest: 2, sync: true }));
  const listening = await listen(config);
  closers.add("the port", listening.close);
  const databaseUrl = await openDatabase(options, closers);
  const db = connectDatabase(databaseUrl);
  closers.add("the database's client", () => db.$disconnect());
  const pages = await openPages(folder, config, listening.port, development);
  closers.add("the pages", pages.close);
  // Again, for the right order: jobs and hub end first, then requests under way, then what those stand on.
  closers.add("the port", listening.close);

  const origins = ownOrigins(config, listening.port);
  const secret = await keptSecret(config.dataFolder, "auth-secret");
  const auth = createAuth({ config, db, log, secret, origins });
  const blobs = await openDiskBlobs(config.dataFolder);
  await forgetAllUnused(db, blobs).catch((err) =>
    log.warn({ err }, "recordings that nothing uses were not removed"),
  );
  const intake = createIntake(config, blobs);
  const earCopies = createEarCopies({ config, db, blobs, log });
  closers.add("the copies for the ear", () => earCopies.stop());
  const hub = createHub({
    db,
    log,
    session: (headers) => readSession(auth, headers),
    membership: (songId, userId) => songMember(db, songId, userId),
    allowedOrigins: origins,
  });
  closers.add("the hub", () => hub.stop());
  const jobs = await createJobs({ config, db, hub, blobs, log, databaseUrl });
  closers.add("the jobs", () => jobs.stop());

  const earFiles = openEarFiles();
  const house: House = { config, db, auth, blobs, intake, earCopies, earFiles, hub, jobs, log, origins };
  openHouse(house);
  await options.beforeAnswering?.(house);
  listening.server.on("upgrade", (req, socket, head) => {
    if (!hub.handleUpgrade(req, socket, head)) pages.upgrade(req, socket, head);
  });
  listening.answerWith(pages.answer);
  return { url: origins[0]!, house };
}

/**
 * Opens the whole server: port, database, hub, jobs, pages. The caller must hold the data folder (instanceLock.ts).
 * @throws where any part does not open; what was opened by then is closed again
 */
export async function startServer(options: ServeOptions): Promise<RunningLiftbook> {
  const closers = new Closers();
  const stop = () =>
    closers.close((what, fault) =>
      console.error(`While stopping ${what}: ${fault instanceof Error ? fault.message : fault}`),
    );
  try {
    return { ...(await open(options, closers)), stop };
  } catch (fault) {
    await stop();
    throw fault;
  }
}
