import { api } from "@/lib/contracts/api";
import type { Take } from "@/lib/contracts/takes";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import { RequestError, request, wordsOf } from "../requests/request";
import { Watched } from "../watched/Watched";
import { sendTake } from "./sendTake";
import { type ListedTake, SHELF_EMPTY, type ShelfState } from "./takeStates";
import type { TakeStore, UnsentTake } from "./UnsentTakes";

/** What of the server is needed; for tests another. */
export interface TakeServer {
  list(songId: string): Promise<Take[]>;
  send: typeof sendTake;
  share(take: Take, isShared: boolean): Promise<Take>;
  keepJudged(take: Pick<Take, "id" | "songId">, judged: TakeJudged): Promise<Take>;
}

export const TAKE_SERVER: TakeServer = {
  list: (songId) => request("GET", api.takes(songId)),
  send: sendTake,
  share: ({ songId, id }, isShared) => request(isShared ? "PUT" : "DELETE", api.takeSharing(songId, id)),
  keepJudged: ({ songId, id }, judged) => request("PUT", api.takeJudged(songId, id), judged),
};

/** What could not be sent is tried again after so long; sooner where the connection comes back. */
const AGAIN_AFTER_MS = 15_000;
/** Answers that will be the same the next time. */
const FINAL_STATUS = [400, 404, 413, 422];
const isFinal = (fault: unknown): boolean =>
  fault instanceof RequestError && FINAL_STATUS.includes(fault.status);

/** The takes of one song, as its page shows them, and the way of new ones to the server: one after the other, until it has them. */
export class TakeShelf extends Watched<ShelfState> {
  private held: Take[] = [];
  private waiting: UnsentTake[] = [];
  private readonly notKept = new Set<string>();
  private readonly faults = new Map<string, string>();
  private sending: { id: string; fraction: number; scope: AbortController } | null = null;
  private again: ReturnType<typeof setTimeout> | undefined;
  private asked = 0;
  private isClosed = false;

  constructor(
    private readonly of: { songId: string; userId: string; name: string },
    private readonly store: TakeStore,
    private readonly server: TakeServer = TAKE_SERVER,
  ) {
    super(SHELF_EMPTY);
  }

  /** Finds what waits in this browser, and what the server has. */
  async open(): Promise<void> {
    const kept = await this.store.list(this.of.userId, this.of.songId).catch(() => []);
    this.waiting.unshift(...kept.filter(({ id }) => !this.waiting.some((take) => take.id === id)));
    this.show();
    await this.refresh();
  }

  /** Asks the server anew, and sends what waits. What it cannot be asked stays as it was. */
  async refresh(): Promise<void> {
    this.asked += 1;
    const { asked } = this;
    try {
      const takes = await this.server.list(this.of.songId);
      if (this.isClosed || asked !== this.asked) return;
      this.held = takes;
      this.show();
    } catch {
      // Offline, or no longer a member: what is shown stays until the connection says more.
    }
    void this.sendNext();
  }

  /** Keeps a new take, and sends it as soon as can be. @returns whether this browser keeps it until then */
  async add(take: UnsentTake): Promise<boolean> {
    this.waiting.push(take);
    this.show();
    const isKept = await this.store.put(take).then(
      () => true,
      () => false,
    );
    if (!isKept && this.waiting.includes(take)) this.notKept.add(take.id);
    this.show();
    void this.sendNext();
    return isKept;
  }

  /** Sends again what the server did not take. */
  sendAgain(id: string): void {
    this.faults.delete(id);
    this.show();
    void this.sendNext();
  }

  /** Gives up a take that the server does not have. */
  async drop(id: string): Promise<void> {
    if (this.sending?.id === id) this.sending.scope.abort(new Error("dropped"));
    this.waiting = this.waiting.filter((take) => take.id !== id);
    this.notKept.delete(id);
    this.show();
    await this.store.remove(id).catch(() => {});
  }

  /** The take was removed on the server. */
  forget(id: string): void {
    this.held = this.held.filter((take) => take.id !== id);
    this.show();
  }

  /** @throws RequestError with the server's words */
  async share(take: Take, isShared: boolean): Promise<void> {
    this.replace(await this.server.share(take, isShared));
  }

  /** Keeps what was found of one's own take: with it while it waits, else on the server. @throws RequestError */
  async keepJudged(id: string, judged: TakeJudged): Promise<void> {
    const waits = this.waiting.find((take) => take.id === id);
    if (waits) {
      waits.judged = judged;
      this.show();
      await this.store.put(waits).catch(() => {});
    } else this.replace(await this.server.keepJudged({ id, songId: this.of.songId }, judged));
  }

  /** The sound of a take that waits here; null where the server has it. */
  soundOf(id: string): Blob | null {
    return this.waiting.find((take) => take.id === id)?.sound ?? null;
  }

  close(): void {
    this.isClosed = true;
    clearTimeout(this.again);
    this.sending?.scope.abort(new Error("closed"));
    this.leaveWatchers();
  }

  private async sendNext(): Promise<void> {
    const next = this.waiting.find(({ id }) => !this.faults.has(id));
    if (this.sending || !next || this.isClosed) return;
    clearTimeout(this.again);
    const sending = { id: next.id, fraction: 0, scope: new AbortController() };
    this.sending = sending;
    this.show();
    let isReached = true;
    try {
      let take = await this.server.send(
        next,
        (fraction) => {
          sending.fraction = fraction;
          this.show();
        },
        sending.scope.signal,
      );
      this.held = [take, ...this.held.filter(({ id }) => id !== take.id)];
      if (next.judged)
        take = await this.server.keepJudged(take, next.judged).catch((fault: unknown) => {
          // Else both are sent again: what was found of it would be lost with what is kept here.
          if (isFinal(fault)) return take;
          throw fault;
        });
      this.waiting = this.waiting.filter(({ id }) => id !== take.id);
      this.notKept.delete(take.id);
      this.held = this.held.map((each) => (each.id === take.id ? take : each));
      await this.store.remove(take.id).catch(() => {});
    } catch (fault) {
      if (sending.scope.signal.aborted) isReached = !this.isClosed;
      else if (isFinal(fault)) this.faults.set(next.id, wordsOf(fault));
      else isReached = false;
    }
    this.sending = null;
    if (this.isClosed) return;
    this.show();
    if (isReached) void this.sendNext();
    else this.again = setTimeout(() => void this.sendNext(), AGAIN_AFTER_MS);
  }

  private replace(take: Take): void {
    this.held = this.held.map((each) => (each.id === take.id ? take : each));
    this.show();
  }

  private show(): void {
    const waiting = this.waiting.map((take) => this.listed(take));
    const held = this.held
      .filter(({ id }) => !this.waiting.some((take) => take.id === id))
      .map((take): ListedTake => ({ ...take, unsent: null }));
    const takes = [...waiting, ...held].sort((a, b) => b.madeAtMs - a.madeAtMs);
    this.tell({ takes, isAtRisk: this.notKept.size > 0 });
  }

  private listed({ about, sound, ...take }: UnsentTake): ListedTake {
    const { sending } = this;
    return {
      ...take,
      ...about,
      ownerName: this.of.name,
      isOwn: true,
      byteCount: sound.size,
      isShared: false,
      unsent: {
        fraction: sending?.id === take.id ? sending.fraction : null,
        fault: this.faults.get(take.id) ?? null,
      },
    };
  }
}
