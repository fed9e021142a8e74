import type { PlacedPassage } from "../song/placePassage";
import { type BenchAnswer, type BenchQuestion, narrowed } from "./benchPlaces";
import { PlacesAnswerer } from "./PlacesAnswerer";
import type { PassageQuestion, PlacesOrder, PlacesWord } from "./placesMessages";

/** An order that the worker has not answered yet. */
interface Waiting {
  order: PlacesOrder;
  settle(word: PlacesWord): void;
  /** Ends it unanswered. */
  stop(reason: unknown): void;
}

function startWorker(): Worker {
  return new Worker(new URL("./placesWorker.ts", import.meta.url), { type: "module", name: "places" });
}

/**
 * Finds places off the page's thread: for the notes on the bench, and for a passage as a whole. The worker is started when
 * it is first wanted; where a browser cannot start one, the page reckons itself.
 */
export class PlaceFinder {
  private worker: Worker | null = null;
  private canStart = true;
  /** In the order in which they were given, which is that of the answers. */
  private waiting: Waiting[] = [];
  private readonly own = new PlacesAnswerer();

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

  /** The same at once, on the page's own thread, where one cannot wait. */
  benchNow(question: BenchQuestion): BenchAnswer {
    const word = this.own.answer({ kind: "bench", question });
    if (word.kind === "bench") return word.answer;
    throw faultOf(word);
  }

  /** Lays a passage out. @returns null where it was cancelled @throws Error in words for people */
  async passage(question: PassageQuestion): Promise<PlacedPassage | null> {
    const word = await this.ask({ kind: "passage", question }).catch((reason: unknown) => {
      if (reason === CANCELLED) return null;
      throw reason;
    });
    if (word === null) return null;
    if (word.kind === "passage") return word.answer;
    throw faultOf(word);
  }

  /** Whether a passage is being laid out. */
  get isLaying(): boolean {
    return this.waiting.some(({ order }) => order.kind === "passage");
  }

  /** Ends the laying out that is under way: the worker is deaf while it reckons, so it is ended. @returns whether there was one */
  cancel(): boolean {
    const laying = this.waiting.filter(({ order }) => order.kind === "passage");
    if (laying.length === 0) return false;
    const others = this.waiting.filter((each) => !laying.includes(each));
    this.close();
    for (const each of laying) each.stop(CANCELLED);
    for (const each of others) this.give(each);
    return true;
  }

  /** Ends all that is under way, as when the page that asked for it is left; it can be asked anew. */
  end(): void {
    const left = this.waiting;
    this.close();
    for (const each of left) each.stop(CANCELLED);
  }

  private close(): void {
    this.worker?.terminate();
    this.worker = null;
    this.waiting = [];
  }

  private ask(order: PlacesOrder): Promise<PlacesWord> {
    return new Promise((settle, stop) => this.give({ order, settle, stop }));
  }

  private give(waiting: Waiting): void {
    if (!this.worker && this.canStart) this.worker = this.begin();
    if (!this.worker) {
      waiting.settle(this.own.answer(waiting.order));
      return;
    }
    this.waiting.push(waiting);
    this.worker.postMessage(waiting.order);
  }

  private begin(): Worker | null {
    try {
      const worker = this.start();
      worker.onmessage = ({ data }: MessageEvent<PlacesWord>) => this.waiting.shift()?.settle(data);
      worker.onerror = () => {
        const left = this.waiting;
        this.canStart = false;
        this.close();
        for (const each of left) each.settle(this.own.answer(each.order));
      };
      return worker;
    } catch {
      this.canStart = false;
      return null;
    }
  }
}

const CANCELLED = Symbol("cancelled");

/** Of a word that is not the answer. */
function faultOf(word: PlacesWord): Error {
  return new Error(word.kind === "fault" ? word.message : "Places were answered out of turn.");
}

let finder: PlaceFinder | null = null;

/** The page's one finder of places. */
export function placeFinder(): PlaceFinder {
  finder ??= new PlaceFinder();
  return finder;
}
