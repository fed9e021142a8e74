import type { Logger } from "pino";
import type { EarCopyStatus } from "@/lib/contracts/earCopy";
import { AppError } from "../AppError";
import type { Config } from "../config/config";
import type { PrismaClient } from "../db/generated/client";
import { makeEarCopy } from "../media/earCopy";
import type { BlobStore } from "./BlobStore";
import { findEarCopy, keepEarCopy } from "./earCopyRows";
import { Turns } from "./turns";

/** Decoding the longest record takes seconds. */
const TIME_LIMIT_SEC = 180;
const AT_ONCE = 1;

/**
 * Makes the copies that passages are heard from where hearing runs have not made them. It hangs on the house because it
 * starts threads from files of its own, which a bundle of Next does not hold, and because each copy is made once
 * however many ask.
 */
export interface EarCopies {
  /**
   * How far the copy of a record is; begins to make it where there is none.
   * @throws {AppError} ear-copy-failed, once, where making it failed since it was last asked for
   */
  want(recordSha256: string): Promise<EarCopyStatus>;
  /** Ends what is under way. */
  stop(): Promise<void>;
}

export interface EarCopiesDeps {
  config: Pick<Config, "maxDurationSec" | "ffmpeg">;
  db: PrismaClient;
  blobs: BlobStore;
  log: Logger;
  /** Makes one; a thread of its own unless told otherwise. */
  make?: typeof makeEarCopy;
}

interface Making {
  fraction: number;
  hasFailed: boolean;
  ended: Promise<void>;
}

export function createEarCopies(deps: EarCopiesDeps): EarCopies {
  const { config, db, blobs, log, make = makeEarCopy } = deps;
  const turns = new Turns(AT_ONCE);
  const stopping = new AbortController();
  const underWay = new Map<string, Making>();

  async function makeOne(recordSha256: string, making: Making): Promise<void> {
    const toPath = blobs.scratchPath(".ear");
    try {
      await make(await blobs.pathOf(recordSha256), toPath, {
        maxDurationSec: config.maxDurationSec,
        timeLimitSec: TIME_LIMIT_SEC,
        ffmpeg: config.ffmpeg,
        signal: stopping.signal,
        onProgress: (fraction) => {
          making.fraction = fraction;
        },
      });
      await keepEarCopy(db, blobs, recordSha256, toPath);
    } finally {
      await blobs.discard({ path: toPath });
    }
  }

  function begin(recordSha256: string): Making {
    const making: Making = { fraction: 0, hasFailed: false, ended: Promise.resolve() };
    underWay.set(recordSha256, making);
    making.ended = turns
      .run(() => makeOne(recordSha256, making))
      .then(
        () => void underWay.delete(recordSha256),
        (err: unknown) => {
          making.hasFailed = true;
          if (!stopping.signal.aborted) log.error({ err, recordSha256 }, "a copy for the ear was not made");
        },
      );
    return making;
  }

  function sayUnderWay(recordSha256: string): EarCopyStatus | null {
    const making = underWay.get(recordSha256);
    return making && !making.hasFailed ? { state: "making", fraction: making.fraction } : null;
  }

  return {
    async want(recordSha256) {
      const told = sayUnderWay(recordSha256);
      if (told) return told;
      const isThere = (await findEarCopy(db, blobs, recordSha256)) !== null;
      // Another may have asked meanwhile.
      const toldSince = sayUnderWay(recordSha256);
      if (toldSince) return toldSince;
      // A failure is told once, and not where a hearing has made the copy since; who asks next has it tried again.
      const hasFailed = underWay.delete(recordSha256);
      if (isThere) return { state: "ready", fraction: 1 };
      if (hasFailed) throw new AppError("ear-copy-failed");
      return { state: "making", fraction: begin(recordSha256).fraction };
    },

    async stop() {
      stopping.abort(new Error("the server stops"));
      await Promise.all([...underWay.values()].map(({ ended }) => ended));
    },
  };
}
