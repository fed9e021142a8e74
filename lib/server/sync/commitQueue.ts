import * as Y from "yjs";
import { SongGone } from "./updateLog";

export interface CommitTiming {
  /** How long updates are gathered before they are written together. */
  gatherMs: number;
  /** First pause after a refusal; doubles with each, up to `longestPauseMs`. */
  firstPauseMs: number;
  longestPauseMs: number;
  /** How long the oldest update may wait before the room is told that saving fails. */
  giveUpMs: number;
}

export const COMMIT_TIMING: CommitTiming = {
  gatherMs: 5,
  firstPauseMs: 100,
  longestPauseMs: 5_000,
  giveUpMs: 15_000,
};

export interface CommitHooks {
  append(update: Uint8Array): Promise<void>;
  /** Called as a batch is closed, so that whoever waits on it can be noted; the answer is handed to `committed`. */
  closing(): () => void;
  /** Saving has failed for too long, or (`gone`) can never succeed. What is unsaved stays in memory. */
  failing(fault: unknown, gone: boolean): void;
}

/**
 * Writes a song's updates to the log in the order they came, those that arrive within a few milliseconds in one
 * transaction. Refusals are tried again for ever; nothing counts as committed before the database said so.
 */
export class CommitQueue {
  private gathered: Uint8Array[] = [];
  private writing = false;
  private timer: NodeJS.Timeout | null = null;
  private waiters: { reached: number; resolve: () => void; reject: (fault: unknown) => void }[] = [];
  private enqueued = 0;
  private committed = 0;
  private lastFault: unknown = new Error("the database has not answered");
  private dead = false;
  /** True from the moment `failing` was called until a write succeeds. */
  failed = false;

  constructor(
    private readonly hooks: CommitHooks,
    private readonly timing: CommitTiming,
  ) {}

  /** True when nothing is left to write: all is committed, or nothing can be written any more. */
  get finished(): boolean {
    return this.settled || this.dead;
  }

  /** True when everything that was ever pushed is committed. */
  get settled(): boolean {
    return this.enqueued === this.committed;
  }

  push(update: Uint8Array): void {
    if (this.dead) return;
    this.enqueued++;
    this.gathered.push(update);
    if (!this.writing && !this.timer) this.timer = setTimeout(() => void this.write(), this.timing.gatherMs);
  }

  /**
   * Resolves when everything pushed so far is committed.
   * @throws what the database said, when saving fails for too long
   */
  async flush(): Promise<void> {
    if (this.dead) throw new SongGone();
    if (this.settled) return;
    if (this.failed) throw this.lastFault;
    await new Promise<void>((resolve, reject) => {
      this.waiters.push({ reached: this.enqueued, resolve, reject });
    });
  }

  /** Stops writing for good. */
  discard(fault: unknown): void {
    this.dead = true;
    if (this.timer) clearTimeout(this.timer);
    this.rejectWaiters(fault);
  }

  private rejectWaiters(fault: unknown): void {
    for (const waiter of this.waiters.splice(0)) waiter.reject(fault);
  }

  private async write(): Promise<void> {
    this.timer = null;
    this.writing = true;
    while (this.gathered.length > 0 && !this.dead) {
      const batch = this.gathered;
      this.gathered = [];
      const committed = this.hooks.closing();
      const update = batch.length === 1 && batch[0] ? batch[0] : Y.mergeUpdates(batch);
      if (!(await this.writeUntilDone(update))) break;
      this.committed += batch.length;
      this.failed = false;
      committed();
      const due = this.waiters.filter((waiter) => waiter.reached <= this.committed);
      this.waiters = this.waiters.filter((waiter) => waiter.reached > this.committed);
      for (const waiter of due) waiter.resolve();
    }
    this.writing = false;
  }

  private giveUp(): void {
    if (this.failed || this.dead) return;
    this.failed = true;
    this.rejectWaiters(this.lastFault);
    this.hooks.failing(this.lastFault, false);
  }

  private async writeUntilDone(update: Uint8Array): Promise<boolean> {
    // A timer of its own, so that a database that hangs is noticed as one that refuses is.
    const watch = setTimeout(() => this.giveUp(), this.timing.giveUpMs);
    let pauseMs = this.timing.firstPauseMs;
    try {
      while (!this.dead) {
        try {
          await this.hooks.append(update);
          return true;
        } catch (fault) {
          this.lastFault = fault;
          if (fault instanceof SongGone) {
            this.discard(fault);
            this.hooks.failing(fault, true);
            return false;
          }
          await new Promise((resolve) => setTimeout(resolve, pauseMs));
          pauseMs = Math.min(pauseMs * 2, this.timing.longestPauseMs);
        }
      }
      return false;
    } finally {
      clearTimeout(watch);
    }
  }
}
