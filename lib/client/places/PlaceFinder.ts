import type { Copedent } from "@/lib/instrument/Copedent";
import type { CarriedOver, PartToMove } from "../song/carryOver";
import type { GripsQuestion, GripWay } from "../song/otherGrips";
import type { PlacesInstead } from "../song/partOnGuitar";
import type { PlacedPassage } from "../song/placePassage";
import { type BenchAnswer, type BenchQuestion, narrowed } from "./BenchQuestion";
import type { PlacesAnswerer } from "./PlacesAnswerer";
import type { PassageQuestion, PlacesAnswer, PlacesMessage, PlacesOrder, PlacesWord } from "./placesMessages";

/** Told how far an order is, 0 to 1. */
export type OnProgress = (fraction: number) => void;

/** What takes long: it can be cancelled. */
type LongOrder = Exclude<PlacesOrder, { kind: "bench" }>;

type LongAnswers = {
  [K in LongOrder["kind"]]: Extract<PlacesAnswer, { kind: K }>["answer"];
};

/** An order that the worker has not answered yet. */
interface Waiting {
  order: PlacesOrder;
  onProgress?: OnProgress | undefined;
  settle(word: PlacesAnswer): void;
  /** Ends it unanswered. */
  stop(reason: unknown): void;
}

function startWorker(): Worker {
  return new Worker(new URL("./placesWorker.ts", import.meta.url), { type: "module", name: "places" });
}

/**
 * Finds places off the page's thread: for the notes on the bench, for a passage as a whole, and for a part that goes to another
 * guitar. The worker is started when it is first wanted, or is to be warm by then; where a browser cannot start one, the page
 * fetches the search and reckons itself.
 */
export class PlaceFinder {
  private worker: Worker | null = null;
  private canStart = true;
  /** In the order in which they were given, which is that of the answers. */
  private waiting: Waiting[] = [];
  /** The page's own, where no worker can be had. */
  private own: Promise<PlacesAnswerer> | null = null;
  /** What a worker that is started anew is warmed up on. */
  private warmOn: Copedent | null = null;

  /** @param start starts a worker with the body of placesWorker.ts */
  constructor(private readonly start: () => Worker = startWorker) {}

  /** @throws Error in words for people; the signal's reason where it was let go before the answer came */
  async bench(question: BenchQuestion, signal?: AbortSignal): Promise<BenchAnswer> {
    const word = await this.ask({ kind: "bench", question: narrowed(question) }).catch((reason: unknown) => {
      signal?.throwIfAborted();
      if (reason === CANCELLED) throw new Error("Looking for places was stopped. Nothing was changed.");
      throw reason;
    });
    signal?.throwIfAborted();
    if (word.kind === "bench") return word.answer;
    throw faultOf(word);
  }

  /** Lays a passage out. @returns null where it was cancelled @throws Error in words for people */
  passage(question: PassageQuestion): Promise<PlacedPassage | null> {
    return this.long({ kind: "passage", question });
  }

  /**
   * Finds places for what of a part cannot be played on another guitar by effect.
   * @returns null where it was cancelled
   * @throws Error in words for people
   */
  anew(question: PartToMove, onProgress?: OnProgress): Promise<PlacesInstead | null> {
    return this.long({ kind: "anew", question }, onProgress);
  }

  /** Carries a whole part over to another guitar. @returns null where it was cancelled @throws Error in words for people */
  carry(question: PartToMove, onProgress?: OnProgress): Promise<CarriedOver | null> {
    return this.long({ kind: "carry", question }, onProgress);
  }

  /** Finds other places for events of the part. @returns null where it was cancelled @throws Error in words for people */
  grips(question: GripsQuestion): Promise<GripWay[] | null> {
    return this.long({ kind: "grips", question });
  }

  /**
   * Starts the worker ahead of the first question, and lets it lay out parts of its own on a guitar: the first part that is
   * asked for then comes as soon as later ones. To be called while the page is idle.
   */
  warm(copedent: Copedent): void {
    if (this.worker && JSON.stringify(copedent) === JSON.stringify(this.warmOn)) return;
    this.warmOn = copedent;
    this.beginWarm(copedent);
  }

  /** Whether something long is under way. */
  get isLaying(): boolean {
    return this.waiting.some(isLong);
  }

  /** Ends whatever long is under way: the worker is deaf while it reckons, so it is ended. @returns whether there was any */
  cancel(): boolean {
    const laying = this.waiting.filter(isLong);
    if (laying.length === 0) return false;
    const others = this.waiting.filter((each) => !isLong(each));
    this.close();
    for (const each of laying) each.stop(CANCELLED);
    for (const each of others) this.give(each);
    if (this.warmOn) this.beginWarm(this.warmOn);
    return true;
  }

  /** Ends all that is under way, as when the page that asked for it is left; it can be asked anew. */
  end(): void {
    const left = this.waiting;
    this.warmOn = null;
    this.close();
    for (const each of left) each.stop(CANCELLED);
  }

  private beginWarm(copedent: Copedent): void {
    if (!this.worker && this.canStart) this.worker = this.begin();
    this.post({ kind: "warm", copedent });
  }

  private close(): void {
    this.worker?.terminate();
    this.worker = null;
    this.waiting = [];
  }

  private async long<K extends LongOrder["kind"]>(
    order: Extract<LongOrder, { kind: K }>,
    onProgress?: OnProgress,
  ): Promise<LongAnswers[K] | null> {
    const word = await this.ask(order, onProgress).catch((reason: unknown) => {
      if (reason === CANCELLED) return null;
      throw reason;
    });
    if (word === null) return null;
    if (word.kind === order.kind) return word.answer as LongAnswers[K];
    throw faultOf(word);
  }

  private ask(order: PlacesOrder, onProgress?: OnProgress): Promise<PlacesAnswer> {
    return new Promise((settle, stop) => this.give({ order, onProgress, settle, stop }));
  }

  private give(waiting: Waiting): void {
    if (!this.worker && this.canStart) this.worker = this.begin();
    if (!this.worker) {
      this.giveOwn(waiting);
      return;
    }
    this.waiting.push(waiting);
    this.post(waiting.order);
  }

  /** Has the page itself answer. */
  private giveOwn({ order, settle, stop }: Waiting): void {
    this.own ??= import("./PlacesAnswerer").then(({ PlacesAnswerer }) => new PlacesAnswerer());
    this.own.then(
      (own) => settle(own.answer(order)),
      () => {
        // The next one fetches it anew.
        this.own = null;
        stop(new Error("The search for places could not be fetched. Nothing was changed; try again."));
      },
    );
  }

  private post(message: PlacesMessage): void {
    this.worker?.postMessage(message);
  }

  private begin(): Worker | null {
    try {
      const worker = this.start();
      worker.onmessage = ({ data }: MessageEvent<PlacesWord>) => {
        if (data.kind === "progress") this.waiting[0]?.onProgress?.(data.fraction);
        else this.waiting.shift()?.settle(data);
      };
      worker.onerror = () => {
        const left = this.waiting;
        this.canStart = false;
        this.close();
        for (const each of left) this.giveOwn(each);
      };
      return worker;
    } catch {
      this.canStart = false;
      return null;
    }
  }
}

const CANCELLED = Symbol("cancelled");

function isLong({ order }: Waiting): boolean {
  return order.kind !== "bench";
}

/** Of a word that is not the answer. */
function faultOf(word: PlacesAnswer): Error {
  return new Error(word.kind === "fault" ? word.message : "Places were answered out of turn.");
}

let finder: PlaceFinder | null = null;

/** The page's one finder of places. */
export function placeFinder(): PlaceFinder {
  finder ??= new PlaceFinder();
  return finder;
}
