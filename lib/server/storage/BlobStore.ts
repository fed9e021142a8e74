import type { Readable } from "node:stream";

/** Bytes taken in and not yet kept: they have no address until they are committed. */
export interface Incoming {
  /** Where they lie until then, for programs that read files. */
  path: string;
  sha256: string;
  byteCount: number;
}

export interface ReceiveLimits {
  maxBytes: number;
  /** Ends the taking in; nothing is kept. */
  signal?: AbortSignal;
}

/** More bytes came than may. Nothing was kept. */
export class TooManyBytes extends Error {
  override readonly name = "TooManyBytes";

  constructor(readonly maxBytes: number) {
    super(`more than ${maxBytes} bytes`);
  }
}

/** Also true of one that another copy of this module made: Next bundles its own. */
export function isTooManyBytes(fault: unknown): fault is TooManyBytes {
  return fault instanceof Error && fault.name === "TooManyBytes";
}

/** Keeps bytes under the SHA-256 of what they are. */
export interface BlobStore {
  /**
   * Takes bytes in, hashing them on the way.
   * @throws {TooManyBytes} past the limit; rejects with the stream's own fault, or the signal's reason. In each
   *   case nothing is left behind.
   */
  receive(stream: AsyncIterable<Uint8Array>, limits: ReceiveLimits): Promise<Incoming>;
  /** Takes in a file that lies on this machine already; the file itself stays where it is. */
  receiveFile(path: string, limits: ReceiveLimits): Promise<Incoming>;
  /** A fresh place for a program that writes a file, to be taken in by {@link receiveFile} and then given to {@link discard}. */
  scratchPath(ending: string): string;
  /** Keeps what was taken in; the same bytes are kept once. Durable when it resolves. */
  commit(incoming: Incoming): Promise<void>;
  /** Forgets what was taken in; to be called at any time, more than once too. */
  discard(incoming: Pick<Incoming, "path">): Promise<void>;
  /** A file on this machine with the bytes in it. @throws where there are none of that name */
  pathOf(sha256: string): Promise<string>;
  /** Bytes `start` to `end`, both included. */
  openRange(sha256: string, start: number, end: number): Readable;
  /** Number of bytes. @throws where there are none of that name */
  byteCount(sha256: string): Promise<number>;
  /** Forgets bytes that nothing names any more. */
  remove(sha256: string): Promise<void>;
}
