import type { Logger } from "pino";
import { Awareness } from "y-protocols/awareness";
import * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import { type Role, WRITING_ROLES } from "@/lib/contracts/roles";
import { CLOSE } from "@/lib/contracts/sync";
import { CommitQueue, type CommitTiming } from "./commitQueue";
import {
  awarenessMessage,
  hearingMessage,
  readMessage,
  savedMessage,
  step1Message,
  step2Message,
  updateMessage,
} from "./messages";
import { type Person, Presence } from "./presence";
import type { UpdateLog } from "./updateLog";

/** One page that has the song open. */
export interface Seat {
  readonly person: Person;
  role: Role;
  send(message: Uint8Array): void;
  close(code: number): void;
}

/** How many messages with an update went each way (see SAVED in lib/contracts/sync.ts). */
interface Tally {
  /** From the seat. */
  received: number;
  /** From the seat, and held by the document or dropped because it held them already. */
  taken: number;
  /** To the seat. */
  sent: number;
  /** An update waits in memory for another that it builds on; it is not taken until that has come. */
  held: boolean;
  /** An update with something new in it was dropped (a listener's): nothing is taken from here on. */
  dropped: boolean;
}

const newTally = (): Tally => ({
  received: 0,
  taken: 0,
  sent: 0,
  held: false,
  dropped: false,
});

export interface RoomDeps {
  updateLog: UpdateLog;
  log: Logger;
  timing: CommitTiming;
  /** Rows of log after which they are folded into the snapshot. */
  compactAfter: number;
}

/** One song in memory: its document, who has it open, and what of it is committed. */
export class SongRoom {
  readonly doc = new Y.Doc();
  readonly ready: Promise<void>;
  /** The last word about the song's hearing, where there was one since the room opened. */
  hearing: HearingStatus | null = null;
  private readonly seats = new Map<Seat, Tally>();
  private readonly awareness = new Awareness(this.doc);
  private readonly presence = new Presence<Seat>(this.awareness);
  private readonly queue: CommitQueue;
  private logRows = 0;
  private folding: Promise<void> = Promise.resolve();
  private holds = 0;

  constructor(
    readonly songId: string,
    private readonly deps: RoomDeps,
  ) {
    this.queue = new CommitQueue(
      {
        append: async (update) => {
          await deps.updateLog.append(songId, update);
          this.logRows++;
        },
        closing: () => this.closeBatch(),
        failing: (fault, gone) => this.savingFails(fault, gone),
      },
      deps.timing,
    );
    this.ready = this.load();
  }

  private async load(): Promise<void> {
    const stored = await this.deps.updateLog.load(this.songId);
    this.doc.transact(() => {
      for (const update of stored.updates) Y.applyUpdate(this.doc, update);
    });
    this.logRows = stored.logRows;
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      this.queue.push(update);
      const message = updateMessage(update);
      for (const [seat, tally] of this.seats) {
        if (seat === origin) continue;
        tally.sent++;
        seat.send(message);
      }
    });
    this.awareness.on("update", (change: { added: number[]; updated: number[]; removed: number[] }) => {
      // To the sender as well: its client takes a silent line for a dead one.
      const ids = [...change.added, ...change.updated, ...change.removed];
      this.tellAll(awarenessMessage(this.presence.some(ids)));
    });
  }

  /** Nobody is here, and nothing waits for the database. */
  get idle(): boolean {
    return this.seats.size === 0 && this.holds === 0 && this.queue.finished;
  }

  /** Saving has failed for so long that pages were sent away. */
  get failing(): boolean {
    return this.queue.failed;
  }

  get members(): readonly Seat[] {
    return [...this.seats.keys()];
  }

  join(seat: Seat, hearing: HearingStatus | null): void {
    this.seats.set(seat, newTally());
    seat.send(step1Message(this.doc));
    const everyone = this.presence.everyone();
    if (everyone) seat.send(awarenessMessage(everyone));
    const status = this.hearing ?? hearing;
    if (status) seat.send(hearingMessage(status));
  }

  leave(seat: Seat): void {
    if (this.seats.delete(seat)) this.presence.leave(seat);
  }

  /** @throws on a message that cannot be read */
  receive(seat: Seat, bytes: Uint8Array): void {
    const tally = this.seats.get(seat);
    if (!tally) return;
    const message = readMessage(bytes);
    switch (message.kind) {
      case "step1":
        tally.sent++;
        seat.send(step2Message(this.doc, message.stateVector));
        break;
      case "update":
        this.take(seat, tally, message.update);
        break;
      case "awareness":
        this.presence.receive(seat, seat.person, message.update);
        break;
      case "queryAwareness": {
        const everyone = this.presence.everyone();
        if (everyone) seat.send(awarenessMessage(everyone));
        break;
      }
      case "ignored":
        break;
    }
  }

  private take(seat: Seat, tally: Tally, update: Uint8Array): void {
    tally.received++;
    if (WRITING_ROLES.includes(seat.role)) {
      Y.applyUpdate(this.doc, update, seat);
      if (this.incomplete && !this.holdsAllOf(update)) tally.held = true;
    } else if (!this.holdsAllOf(update)) {
      tally.dropped = true;
    }
    this.count();
    if (this.queue.settled) this.settle([seat]);
  }

  /** Yjs keeps an update apart while one that it builds on is missing; such an update is in no log yet. */
  private get incomplete(): boolean {
    return this.doc.store.pendingStructs !== null || this.doc.store.pendingDs !== null;
  }

  private holdsAllOf(update: Uint8Array): boolean {
    return Y.snapshotContainsUpdate(Y.snapshot(this.doc), update);
  }

  private count(): void {
    const whole = !this.incomplete;
    for (const tally of this.seats.values()) {
      if (whole) tally.held = false;
      if (!tally.held && !tally.dropped) tally.taken = tally.received;
    }
  }

  private closeBatch(): () => void {
    const covered = [...this.seats].map(([seat, { taken, sent }]) => ({ seat, taken, sent }));
    return () => {
      if (this.queue.settled) {
        this.settle(this.seats.keys());
      } else {
        for (const { seat, taken, sent } of covered) {
          if (this.seats.has(seat)) seat.send(savedMessage(taken, sent));
        }
      }
      if (this.logRows >= this.deps.compactAfter) this.fold();
    };
  }

  /** Everything that came so far is committed: says so. */
  private settle(seats: Iterable<Seat>): void {
    for (const seat of seats) {
      const tally = this.seats.get(seat);
      if (tally) seat.send(savedMessage(tally.taken, tally.sent));
    }
  }

  /** A sign of life, which says again what is saved. */
  remind(): void {
    if (this.queue.settled) this.settle(this.seats.keys());
  }

  private savingFails(fault: unknown, gone: boolean): void {
    if (gone) this.deps.log.info({ songId: this.songId }, "a song was removed while it was open");
    else this.deps.log.error({ songId: this.songId, err: fault }, "changes to a song cannot be saved");
    for (const seat of this.members) seat.close(gone ? CLOSE.notFound : CLOSE.notSaved);
  }

  announce(status: HearingStatus): void {
    this.hearing = status;
    this.tellAll(hearingMessage(status));
  }

  private tellAll(message: Uint8Array): void {
    for (const seat of this.seats.keys()) seat.send(message);
  }

  /**
   * Runs one edit and resolves when it is committed.
   * @throws what `change` throws, or what the database said when saving fails for too long
   */
  async edit<T>(change: (doc: Y.Doc) => T, origin: unknown): Promise<T> {
    this.holds++;
    try {
      await this.ready;
      const result = this.doc.transact(() => change(this.doc), origin);
      await this.queue.flush();
      return result;
    } finally {
      this.holds--;
    }
  }

  private fold(): void {
    this.logRows = 0;
    this.folding = this.folding
      .then(() => this.deps.updateLog.compact(this.songId))
      .catch((err) => this.deps.log.warn({ songId: this.songId, err }, "a song's log was not folded"));
  }

  flush(): Promise<void> {
    return this.queue.flush();
  }

  /** Gives up the memory; what was committed stays, folded into one snapshot. */
  async close(): Promise<void> {
    this.queue.discard(new Error("the song was closed"));
    this.awareness.destroy();
    this.doc.destroy();
    if (this.logRows > 0) this.fold();
    await this.folding;
  }
}
