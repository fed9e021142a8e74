import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { RequestError } from "@/lib/client/requests/request";
import { type TakeServer, TakeShelf } from "@/lib/client/takes/TakeShelf";
import type { TakeStore, UnsentTake } from "@/lib/client/takes/UnsentTakes";
import type { Take } from "@/lib/contracts/takes";

const OF = { songId: "song", userId: "ann", name: "Ann" };

function played(id: string, madeAtMs: number): UnsentTake {
  return {
    ...{ id, songId: "song", judged: null, durationSec: 2, sampleRateHz: 48_000, channelCount: 1 },
    about: {
      ...{ ownerId: "ann", partId: null, startSec: 1, endSec: 2, speed: 1, shiftCents: 0 },
      ...{ leadSec: 0.5, delaySec: 0.02, madeAtMs },
    },
    sound: new Blob(["sound"]),
  };
}

/** Keeps as a browser does: what was put is there in another page too. */
class Store implements TakeStore {
  readonly kept = new Map<string, UnsentTake>();
  isFull = false;
  async list(userId: string, songId: string) {
    return [...this.kept.values()].filter((take) => take.about.ownerId === userId && take.songId === songId);
  }
  async put(take: UnsentTake) {
    if (this.isFull) throw new DOMException("", "QuotaExceededError");
    this.kept.set(take.id, take);
  }
  async remove(id: string) {
    this.kept.delete(id);
  }
}

/** A server that holds what it was sent; it answers `fault` instead where that is set. */
class Server implements TakeServer {
  readonly held: Take[] = [];
  fault: RequestError | null = null;
  sendings = 0;
  async list() {
    if (this.fault?.status === 0) throw this.fault;
    return [...this.held];
  }
  readonly send: TakeServer["send"] = async ({ about, sound, ...take }, onProgress) => {
    this.sendings++;
    onProgress(0.5);
    if (this.fault) throw this.fault;
    const row: Take = {
      ...take,
      ...about,
      ownerName: "Ann",
      isOwn: true,
      byteCount: sound.size,
      isShared: false,
    };
    this.held.push(row);
    return row;
  };
  async share(take: Take, isShared: boolean) {
    return { ...take, isShared };
  }
  keepFault: RequestError | null = null;
  async keepJudged({ id }: Pick<Take, "id">, judged: NonNullable<Take["judged"]>) {
    if (this.keepFault) throw this.keepFault;
    return { ...this.held.find((take) => take.id === id)!, judged };
  }
}

const UNREACHED = new RequestError("The server could not be reached.", null, 0);

describe("takes on their way to the server", () => {
  let store: Store;
  let server: Server;
  let shelf: TakeShelf;
  const settle = () => vi.advanceTimersByTimeAsync(0);
  const shown = () =>
    shelf.now().takes.map(({ id, unsent }) => [id, unsent === null ? "there" : (unsent.fault ?? "waits")]);
  beforeEach(async () => {
    vi.useFakeTimers();
    store = new Store();
    server = new Server();
    shelf = new TakeShelf(OF, store, server);
    await shelf.open();
  });
  afterEach(() => {
    shelf.close();
    vi.useRealTimers();
  });

  it("are kept in the browser until the server has them, and then no longer", async () => {
    const take = played("a", 1);
    const added = shelf.add(take);
    expect(shown()).toEqual([["a", "waits"]]);
    expect(await added).toBe(true);
    await settle();
    expect(shown()).toEqual([["a", "there"]]);
    expect(server.held.map(({ id }) => id)).toEqual(["a"]);
    expect(store.kept.size).toBe(0);
    expect(shelf.soundOf("a")).toBeNull();
  });

  it("wait out a lost connection and a page that is loaded anew, and are sent in the order they were played", async () => {
    server.fault = UNREACHED;
    await shelf.add(played("a", 1));
    await shelf.add(played("b", 2));
    await settle();
    expect(shown()).toEqual([
      ["b", "waits"],
      ["a", "waits"],
    ]);
    shelf.close();
    shelf = new TakeShelf(OF, store, server);
    await shelf.open();
    await settle();
    expect(shown().map(([id]) => id)).toEqual(["b", "a"]);
    expect(shelf.soundOf("a")).not.toBeNull();
    // The connection is back.
    server.fault = null;
    await shelf.refresh();
    await settle();
    expect(server.held.map(({ id }) => id)).toEqual(["a", "b"]);
    expect(store.kept.size).toBe(0);
  });

  it("are tried again by themselves", async () => {
    server.fault = UNREACHED;
    await shelf.add(played("a", 1));
    await settle();
    server.fault = null;
    await vi.advanceTimersByTimeAsync(20_000);
    expect(shown()).toEqual([["a", "there"]]);
  });

  it("that the server does not take stay, with its words, and hold up no others", async () => {
    server.fault = new RequestError("That take runs longer than 10 minutes.", "take-too-long", 413);
    await shelf.add(played("a", 1));
    await settle();
    expect(shown()).toEqual([["a", "That take runs longer than 10 minutes."]]);
    const { sendings } = server;
    server.fault = null;
    await shelf.add(played("b", 2));
    await settle();
    expect(server.sendings).toBe(sendings + 1);
    expect(shown()).toEqual([
      ["b", "there"],
      ["a", "That take runs longer than 10 minutes."],
    ]);
    expect(store.kept.has("a")).toBe(true);
    shelf.sendAgain("a");
    await settle();
    expect(shown().map(([, where]) => where)).toEqual(["there", "there"]);
  });

  it("that the browser has no room for are shown and sent all the same, and it is said that they are at risk", async () => {
    store.isFull = true;
    server.fault = UNREACHED;
    expect(await shelf.add(played("a", 1))).toBe(false);
    await settle();
    expect(shelf.now().isAtRisk).toBe(true);
    server.fault = null;
    await shelf.refresh();
    await settle();
    expect(shelf.now().isAtRisk).toBe(false);
    expect(shown()).toEqual([["a", "there"]]);
  });

  it("that are dropped before they are sent go for good", async () => {
    server.fault = UNREACHED;
    await shelf.add(played("a", 1));
    await settle();
    await shelf.drop("a");
    server.fault = null;
    await vi.advanceTimersByTimeAsync(60_000);
    expect(shown()).toEqual([]);
    expect(server.held).toEqual([]);
    expect(store.kept.size).toBe(0);
  });

  it("take along what was found of them meanwhile", async () => {
    server.fault = UNREACHED;
    await shelf.add(played("a", 1));
    await settle();
    const judged = { isClean: true } as NonNullable<Take["judged"]>;
    await shelf.keepJudged("a", judged);
    expect(store.kept.get("a")?.judged).toEqual(judged);
    server.fault = null;
    await shelf.refresh();
    await settle();
    expect(shelf.now().takes[0]?.judged).toEqual(judged);
  });

  it("wait on while the server has their sound and not what was found of them, but not where it refuses that", async () => {
    server.fault = UNREACHED;
    await shelf.add(played("a", 1));
    const judged = { isClean: true } as NonNullable<Take["judged"]>;
    await shelf.keepJudged("a", judged);
    [server.fault, server.keepFault] = [null, UNREACHED];
    await shelf.refresh();
    await settle();
    expect(store.kept.get("a")?.judged).toEqual(judged);
    server.keepFault = null;
    await vi.advanceTimersByTimeAsync(20_000);
    expect(shelf.now().takes.map((take) => [take.unsent, take.judged])).toEqual([[null, judged]]);
    expect(store.kept.size).toBe(0);
    server.keepFault = new RequestError("That request could not be read.", "bad-request", 400);
    await shelf.add({ ...played("b", 2), judged });
    await settle();
    expect(shown()[0]).toEqual(["b", "there"]);
  });
});
