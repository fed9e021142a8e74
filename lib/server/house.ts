import type { HearingStatus } from "@/lib/contracts/books";
import type { Auth } from "./auth/auth";
import type { Config } from "./config/config";
import type { Prisma, PrismaClient } from "./db/generated/client";
import type { EarFiles } from "./hearing/earFiles";
import type { BlobStore } from "./storage/BlobStore";
import type { EarCopies } from "./storage/earCopies";
import type { Intake } from "./storage/intake";

/** What the rest of the server may ask of the sync hub. */
export interface Hub {
  /** Tells everyone on a song's page how far its hearing is. */
  announceHearing(songId: string, status: HearingStatus): void;
  /** Tells pages of a song to ask for its takes anew; those of one person alone, where that is named. */
  announceTakes(songId: string, userId?: string): void;
  /** Runs one edit in the shared song as a member would, and resolves when it is committed to the database. */
  edit<T>(songId: string, change: (doc: import("yjs").Doc) => T): Promise<T>;
  /** Closes the sockets of a person who may no longer be there. */
  drop(songId: string, userId?: string): void;
  stop(): Promise<void>;
}

/** What the rest of the server may ask of the job queue. */
export interface Jobs {
  /**
   * Queues a hearing run that has its row already; in the transaction that makes the row, where that is given,
   * so that there is never one without the other. Call {@link wake} once that is committed.
   */
  startHearing(runId: string, songId: string, tx?: Prisma.TransactionClient): Promise<void>;
  /** Looks for queued runs at once. */
  wake(): void;
  /** Stops a run wherever it is; resolves when its row says so. */
  cancelHearing(runId: string): Promise<void>;
  stop(): Promise<void>;
}

/** Everything one running server holds, made once by the start command and reached by routes through {@link house}. */
export interface House {
  config: Config;
  db: PrismaClient;
  auth: Auth;
  blobs: BlobStore;
  intake: Intake;
  earCopies: EarCopies;
  earFiles: EarFiles;
  hub: Hub;
  jobs: Jobs;
  log: import("pino").Logger;
  /** Addresses of this server as browsers name it, such as `http://localhost:4280`; the first is the best to give out. */
  origins: readonly string[];
}

// Next bundles its own copy of this module, so the one house of the process hangs on a global key.
const KEY = Symbol.for("liftbook.house");
type Holder = { [KEY]?: House };

export function openHouse(opened: House): void {
  (globalThis as Holder)[KEY] = opened;
}

/** @throws when called before the start command has opened the house (at build time, say). */
export function house(): House {
  const opened = (globalThis as Holder)[KEY];
  if (!opened) throw new Error("Liftbook's server is not running in this process.");
  return opened;
}
