import { AppError } from "../AppError";
import type { Config } from "../config/config";
import type { Declared } from "../media/declaredType";
import { inspectRecord } from "../media/inspectRecord";
import { LISTENING_COPY_TYPE, makeListeningCopy } from "../media/listeningCopy";
import { MediaError } from "../media/MediaError";
import type { RecordFacts } from "../media/RecordFacts";
import type { BlobStore, Incoming } from "./BlobStore";
import { Turns } from "./turns";

/** Longest that a record may take to be read; the longest allowed record takes seconds. */
const TIME_LIMIT_SEC = 180;
/** A long record fills some hundred megabytes while it is read. */
const AT_ONCE = 2;
/** A listening copy is plain samples: up to 24 bits, two channels, at the highest rate that is taken. */
const COPY_BYTES_PER_SEC = 768_000 * 2 * 3;

export interface LookedAt {
  facts: RecordFacts;
  /** What browsers play, where they do not play the record itself; taken in, not kept yet. */
  listening: { incoming: Incoming; mediaType: string } | null;
}

/**
 * Looks at records before they are kept. It hangs on the house because it starts threads from files of its own,
 * which a bundle of Next does not hold.
 */
export interface Intake {
  /**
   * Reads a record to its end and tells what it is, with a listening copy where one is needed.
   * @throws {AppError} with the code of what is wrong with it; rejects with the signal's reason when that ends it
   */
  look(path: string, declared: Declared, signal?: AbortSignal): Promise<LookedAt>;
}

export function createIntake(
  config: Pick<Config, "maxUploadBytes" | "maxDurationSec" | "ffmpeg">,
  blobs: BlobStore,
): Intake {
  const turns = new Turns(AT_ONCE);
  const { maxUploadBytes: maxBytes, maxDurationSec, ffmpeg } = config;
  const limits = { maxDurationSec, timeLimitSec: TIME_LIMIT_SEC };

  async function copy(path: string, signal?: AbortSignal): Promise<LookedAt["listening"]> {
    const toPath = blobs.scratchPath(".wav");
    try {
      await makeListeningCopy(path, toPath, { ...limits, ffmpeg, signal });
      const incoming = await blobs.receiveFile(toPath, {
        maxBytes: maxDurationSec * COPY_BYTES_PER_SEC,
        signal,
      });
      return { incoming, mediaType: LISTENING_COPY_TYPE };
    } finally {
      await blobs.discard({ path: toPath });
    }
  }

  return {
    look: (path, declared, signal) =>
      turns.run(async () => {
        try {
          signal?.throwIfAborted();
          const facts = await inspectRecord(path, declared, { maxBytes, ...limits }, { ffmpeg, signal });
          return { facts, listening: facts.playableInBrowsers ? null : await copy(path, signal) };
        } catch (fault) {
          if (fault instanceof MediaError) throw new AppError(fault.code, fault.details, { cause: fault });
          throw fault;
        }
      }),
  };
}
