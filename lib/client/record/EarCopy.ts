import {
  bytesOfFrames,
  decodeEarCopyHead,
  decodeFrames,
  EAR_COPY_HEAD_BYTES,
  type EarCopyHead,
  type EarCopyStatus,
  type FrameRange,
} from "@/lib/contracts/earCopy";
import { errorOf, RequestError, reach, request, wordsOf } from "../requests/request";
import { midAndSide, type RecordStretch } from "./RecordStretch";

/** How often it is asked how far the making of a copy is. */
const ASK_EVERY_MS = 250;

export interface ReadingOptions {
  signal?: AbortSignal;
  /** Told, 0 to 1, how far the server is with a copy that was not there yet. */
  onMaking?: (fraction: number) => void;
}

/** The beginning of a copy, and which copy it is of. */
interface Opened {
  head: EarCopyHead;
  etag: string | null;
}

/**
 * The server's copy of a record at the ear's rate (lib/contracts/earCopy.ts), of which stretches are fetched as they are
 * wanted: a whole record as samples is too much for a page.
 */
export class EarCopy {
  private opened: Opened | null = null;

  /** @param url where it is had by ranges, and made where it is missing */
  constructor(private readonly url: string) {}

  /**
   * Fetches a stretch; the server makes the copy first where it has none.
   * @param place gives the frames that are wanted of a record, which are cut to what there is
   * @throws RequestError in words for people; the signal's reason where that ended it
   */
  async read(place: (head: EarCopyHead) => FrameRange, options: ReadingOptions = {}): Promise<RecordStretch> {
    for (let tries = 0; tries < 2; tries++) {
      const { head, etag } = await this.open(options);
      const wanted = place(head);
      const startFrame = Math.min(head.frameCount, Math.max(0, wanted.startFrame));
      const endFrame = Math.max(startFrame, Math.min(head.frameCount, wanted.endFrame));
      const { sampleRateHz, level, sideLevel } = head;
      const whereAndHow = { sampleRateHz, startFrame, level, sideLevel };
      if (startFrame === endFrame) return { ...whereAndHow, mid: new Float32Array(0), side: null };
      const range = bytesOfFrames(head, { startFrame, endFrame });
      const part = await this.fetchPart(range, options.signal, etag);
      if (part) return { ...whereAndHow, ...midAndSide(decodeFrames(part.bytes, head)) };
      // Removed or made anew in between: what was read of its beginning no longer holds.
      this.opened = null;
    }
    throw new RequestError(
      "The record was replaced while it was read. Nothing was changed; try again.",
      null,
      0,
    );
  }

  /** Fetches the beginning ahead of time, where there is a copy. What goes wrong is told when a stretch is read. */
  async peek(): Promise<void> {
    await this.openIfMade().catch(() => null);
  }

  /** The beginning; once it is there it is kept. */
  private async open(options: ReadingOptions): Promise<Opened> {
    const { signal } = options;
    const opened = await this.openIfMade(signal);
    if (opened) return opened;
    await this.untilMade(options);
    const made = await this.openIfMade(signal);
    if (!made) throw damaged("it is gone as soon as it is made");
    return made;
  }

  private async openIfMade(signal?: AbortSignal): Promise<Opened | null> {
    if (this.opened) return this.opened;
    const part = await this.fetchPart({ start: 0, end: EAR_COPY_HEAD_BYTES - 1 }, signal);
    if (!part) return null;
    try {
      this.opened = { head: decodeEarCopyHead(part.bytes), etag: part.etag };
    } catch (fault) {
      throw damaged(wordsOf(fault));
    }
    return this.opened;
  }

  private async untilMade({ signal, onMaking }: ReadingOptions): Promise<void> {
    for (;;) {
      const { state, fraction } = await request<EarCopyStatus>("POST", this.url, undefined, signal);
      if (state === "ready") return;
      onMaking?.(fraction);
      await pause(ASK_EVERY_MS, signal);
    }
  }

  /**
   * Bytes `start` to `end`, both included; null where there is no copy, or another than that of the tag.
   * @param tag of the copy of which a part is there already
   */
  private async fetchPart(
    { start, end }: { start: number; end: number },
    signal?: AbortSignal,
    tag?: string | null,
  ): Promise<{ bytes: Uint8Array; etag: string | null } | null> {
    const headers = { range: `bytes=${start}-${end}` };
    const response = await reach(this.url, { headers, signal }, UNREACHED);
    const { status } = response;
    if (status === 206) {
      const etag = response.headers.get("etag");
      if (tag !== undefined && etag !== tag) return null;
      const bytes = await bodyOf(response, signal);
      if (bytes.length !== end - start + 1) throw new RequestError(BROKEN_OFF, null, status);
      return { bytes, etag };
    }
    if (response.ok) {
      // Something on the way does not know ranges: the whole copy would be a hundred megabytes.
      await response.body?.cancel();
      throw new RequestError(NO_RANGES, null, status);
    }
    const fault = errorOf(await response.text(), status);
    // Past its end: a shorter copy has taken its place.
    if (fault.code === "no-ear-copy" || status === 416) return null;
    throw fault;
  }
}

const UNREACHED =
  "The record could not be fetched: the server was not reached. Nothing was changed. Check the connection and try again.";
const BROKEN_OFF =
  "The record broke off on its way here. Nothing was changed. Check the connection and try again.";
const NO_RANGES =
  "The record could not be fetched in parts: something between here and the server does not pass ranges on. Nothing was changed; have the whole song heard instead.";

function damaged(how: string): RequestError {
  return new RequestError(
    `The server's copy of this record cannot be read (${how}). Nothing was changed; have the whole song heard instead.`,
    null,
    0,
  );
}

async function bodyOf(response: Response, signal?: AbortSignal): Promise<Uint8Array> {
  try {
    return new Uint8Array(await response.arrayBuffer());
  } catch (cause) {
    if (signal?.aborted) throw cause;
    throw new RequestError(BROKEN_OFF, null, response.status);
  }
}

function pause(milliseconds: number, signal?: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const stop = () => {
      clearTimeout(timer);
      reject(signal?.reason);
    };
    const timer = setTimeout(() => {
      signal?.removeEventListener("abort", stop);
      resolve();
    }, milliseconds);
    if (signal?.aborted) stop();
    else signal?.addEventListener("abort", stop, { once: true });
  });
}
