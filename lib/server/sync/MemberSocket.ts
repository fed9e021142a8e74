import type { WebSocket } from "ws";
import type { Role } from "@/lib/contracts/roles";
import { CLOSE, MAX_SYNC_MESSAGE_BYTES } from "@/lib/contracts/sync";
import type { Person } from "./presence";
import type { Seat } from "./SongRoom";

/** More than any hand makes; above it the socket is read slower, not closed. */
const MESSAGES_PER_SECOND = 200;
const BURST_MESSAGES = 600;
const PAUSE_MS = 250;

/** A page that takes in nothing while this much waits for it is let go; it comes back and catches up. */
const MAX_WAITING_BYTES = 32 * 1024 * 1024;
/** What a page may send while its song is still being loaded. */
const MAX_EARLY_BYTES = 2 * MAX_SYNC_MESSAGE_BYTES;

/** One member's WebSocket: sizes, pace and signs of life. */
export class MemberSocket implements Seat {
  private early: Uint8Array[] | null = [];
  private earlyBytes = 0;
  private tokens = BURST_MESSAGES;
  private refilledAt = Date.now();
  private alive = true;
  private handle: ((message: Uint8Array) => void) | null = null;

  constructor(
    private readonly ws: WebSocket,
    readonly person: Person,
    public role: Role,
    /** The headers it came with, to ask again who this is. */
    readonly headers: Headers,
  ) {
    ws.on("message", (data, isBinary) => {
      if (!isBinary || !Buffer.isBuffer(data)) this.close(CLOSE.badMessage);
      else this.arrive(data);
    });
    ws.on("pong", () => {
      this.alive = true;
    });
    // ws closes by itself after a fault of the line or the protocol; the close event follows.
    ws.on("error", () => {});
  }

  private arrive(data: Uint8Array): void {
    if (this.ws.readyState !== this.ws.OPEN) return;
    this.alive = true;
    if (data.byteLength > MAX_SYNC_MESSAGE_BYTES) {
      this.close(CLOSE.tooBig);
      return;
    }
    this.pace();
    if (this.early) {
      this.earlyBytes += data.byteLength;
      if (this.earlyBytes > MAX_EARLY_BYTES) this.close(CLOSE.tooBig);
      else this.early.push(data);
      return;
    }
    this.deliver(data);
  }

  private deliver(data: Uint8Array): void {
    if (this.ws.readyState !== this.ws.OPEN) return;
    try {
      this.handle?.(data);
    } catch {
      this.close(CLOSE.badMessage);
    }
  }

  private pace(): void {
    const now = Date.now();
    this.tokens = Math.min(
      BURST_MESSAGES,
      this.tokens + ((now - this.refilledAt) / 1000) * MESSAGES_PER_SECOND,
    );
    this.refilledAt = now;
    this.tokens--;
    if (this.tokens >= 0 || this.ws.isPaused) return;
    this.ws.pause();
    setTimeout(() => this.ws.resume(), PAUSE_MS);
  }

  /** Hands over what has come while the song was loaded, then everything as it comes. */
  begin(handle: (message: Uint8Array) => void): void {
    this.handle = handle;
    const early = this.early ?? [];
    this.early = null;
    for (const message of early) this.deliver(message);
  }

  send(message: Uint8Array): void {
    if (this.ws.readyState !== this.ws.OPEN) return;
    if (this.ws.bufferedAmount > MAX_WAITING_BYTES) this.ws.terminate();
    else this.ws.send(message);
  }

  close(code: number): void {
    if (this.ws.readyState === this.ws.OPEN) this.ws.close(code);
  }

  onClose(gone: () => void): void {
    if (this.ws.readyState === this.ws.CLOSED) gone();
    else this.ws.on("close", gone);
  }

  terminate(): void {
    this.ws.terminate();
  }

  /** Asks for a sign of life, and ends a line that gave none since it was last asked. */
  heartbeat(): void {
    if (!this.alive) {
      this.ws.terminate();
      return;
    }
    this.alive = false;
    if (this.ws.readyState === this.ws.OPEN) this.ws.ping();
  }
}
