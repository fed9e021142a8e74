import { createHash } from "node:crypto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { EarWorker } from "@/lib/client/hearing/passage/EarWorker";
import { fetchEar } from "@/lib/client/hearing/passage/ear";
import type { PassageOrder, PassageWord } from "@/lib/client/hearing/passage/passageMessages";
import { readWeightFile } from "@/lib/server/hearing/weightFiles";
import { SILENT_STRETCH } from "./silentStretch";

/** A worker that answers when the test says so. */
class FakeWorker {
  onmessage: ((event: { data: PassageWord }) => void) | null = null;
  onerror: (() => void) | null = null;
  orders: PassageOrder[] = [];
  isEnded = false;
  postMessage(order: PassageOrder): void {
    this.orders.push(order);
  }
  terminate(): void {
    this.isEnded = true;
  }
  say(data: PassageWord): void {
    this.onmessage?.({ data });
  }
}

function made() {
  const workers: FakeWorker[] = [];
  const ear = new EarWorker(() => {
    const worker = new FakeWorker();
    workers.push(worker);
    return worker as unknown as Worker;
  });
  return { ear, workers };
}

const order = () => ({
  stretch: SILENT_STRETCH,
  passage: { startSec: 0, endSec: 1 },
  tuningCents: 0,
});
const NOTES = { version: "ear-1", notes: [] };

describe("the worker that hears passages", () => {
  it("is started once, by whatever wants it first, and answers in turn", async () => {
    const { ear, workers } = made();
    ear.warm();
    ear.warm();
    const told: number[] = [];
    const hearing = ear.hear(order(), { onProgress: (fraction) => told.push(fraction) });
    const [worker] = workers;
    expect(workers).toHaveLength(1);
    expect(worker!.orders.map(({ kind }) => kind)).toEqual(["warm", "hear"]);
    worker!.say({ kind: "warm" });
    worker!.say({ kind: "progress", fraction: 0.5 });
    worker!.say({ kind: "heard", ...NOTES });
    expect(await hearing).toEqual(NOTES);
    expect(told).toEqual([0.5]);
  });

  it("is ended when a hearing is cancelled, and another is made ready", async () => {
    const { ear, workers } = made();
    const stop = new AbortController();
    const hearing = ear.hear(order(), { signal: stop.signal });
    stop.abort(new Error("enough"));
    await expect(hearing).rejects.toThrow("enough");
    expect(workers.map(({ isEnded, orders }) => [isEnded, orders.map(({ kind }) => kind)])).toEqual([
      [true, ["hear"]],
      [false, ["warm"]],
    ]);
    workers[1]!.say({ kind: "warm" });
    const again = ear.hear(order());
    workers[1]!.say({ kind: "heard", ...NOTES });
    expect(await again).toEqual(NOTES);
    await expect(ear.hear(order(), { signal: stop.signal })).rejects.toThrow("enough");
  });

  it("tells what went wrong, and is started anew after a fault of its own", async () => {
    const { ear, workers } = made();
    const refused = ear.hear(order());
    workers[0]!.say({ kind: "fault", message: "The weights are not whole." });
    await expect(refused).rejects.toThrow("The weights are not whole.");
    const broken = ear.hear(order());
    workers[0]!.onerror?.();
    await expect(broken).rejects.toThrow(/could not be started.*Nothing was changed/);
    void ear.hear(order()).catch(() => {});
    expect(workers).toHaveLength(2);
    ear.close();
    expect(workers[1]!.isEnded).toBe(true);
  });
});

const { manifest, bytes } = (await readWeightFile("ear"))!;

describe("the ear's weights", () => {
  const damaged = bytes.map((byte, i) => (i === 9 ? byte ^ 1 : byte));
  afterEach(() => vi.unstubAllGlobals());

  /** Gives the weights, in turn, that are told, and notes how each was asked for. */
  function serve(...answers: Uint8Array[]): string[] {
    const asked: string[] = [];
    vi.stubGlobal("fetch", async (url: string, { cache }: RequestInit) => {
      if (url === "/api/ear") return Response.json({ ear: manifest });
      expect(url).toBe(`/api/ear/${createHash("sha256").update(bytes).digest("hex")}`);
      asked.push(cache!);
      return new Response(new Uint8Array(answers.shift()!));
    });
    return asked;
  }

  it("are checked by their checksum and become the server's own ear", async () => {
    const asked = serve(bytes);
    expect((await fetchEar()).version).toBe(`ear-${manifest.sha256.slice(0, 8)}`);
    expect(asked).toEqual(["default"]);
  });

  it("are fetched past the browser's own store where that gave others", async () => {
    const asked = serve(damaged, bytes);
    expect((await fetchEar()).noteMaps.length).toBeGreaterThan(0);
    expect(asked).toEqual(["default", "reload"]);
  });

  it("are refused in words where they stay damaged, are missing, or cannot be had", async () => {
    serve(damaged, bytes.slice(0, -1));
    await expect(fetchEar()).rejects.toThrow(/did not arrive as the server has them.*Nothing was changed/);
    vi.stubGlobal("fetch", async () => Response.json({}));
    await expect(fetchEar()).rejects.toThrow(/no learned ear.*Nothing was changed/);
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("Failed to fetch")));
    await expect(fetchEar()).rejects.toThrow(/could not be reached/);
  });
});
