import { afterEach, describe, expect, it, vi } from "vitest";
import { EarCopy } from "@/lib/client/record/EarCopy";
import { midAndSide } from "@/lib/client/record/RecordStretch";
import { encodeEarCopyHead, encodeFrames } from "@/lib/contracts/earCopy";

const URL = "/api/songs/s/ear";
const COUNT = 1_000;
/** Powers of two, which the copy keeps exactly. */
const left = Float32Array.from({ length: COUNT }, (_, i) => (i % 64) / 64 - 0.5);
const right = Float32Array.from({ length: COUNT }, (_, i) => (i % 32) / 64);

function fileOf(channels: Float32Array[]): Uint8Array {
  const channelCount = channels.length === 1 ? 1 : 2;
  const head = encodeEarCopyHead({
    channelCount,
    sampleRateHz: 22_050,
    frameCount: COUNT,
    level: 0.25,
    sideLevel: 0.125,
  });
  return Uint8Array.from([...head, ...encodeFrames(channels, COUNT)]);
}

/** A server in a function: answers as the route does, and notes what it was asked. */
class Server {
  asked: string[] = [];
  file: Uint8Array | null = fileOf([left, right]);
  etag = '"one"';
  /** Answers to "have it made", before the copy is there. */
  making: number[] = [];
  alter: (response: Response) => Response = (response) => response;
  beforeGet = () => {};

  fetch = async (_url: unknown, init: RequestInit = {}): Promise<Response> => {
    init.signal?.throwIfAborted();
    if (init.method === "POST") {
      this.asked.push("make");
      const fraction = this.making.shift();
      if (fraction === undefined) this.file ??= fileOf([left, right]);
      return Response.json({ state: this.file ? "ready" : "making", fraction: fraction ?? 1 });
    }
    const range = new Headers(init.headers).get("range")!;
    this.asked.push(range);
    this.beforeGet();
    if (!this.file) return refusal(404, "no-ear-copy");
    const [start, end] = range.match(/\d+/g)!.map(Number) as [number, number];
    if (start >= this.file.length) return refusal(416, "none");
    const body = this.file.slice(start, end + 1);
    return this.alter(new Response(body, { status: 206, headers: { etag: this.etag } }));
  };
}

const refusal = (status: number, code: string) =>
  Response.json({ error: { code, message: `refused: ${code}` } }, { status });

function serve(change: Partial<Server> = {}): { server: Server; copy: EarCopy } {
  const server = Object.assign(new Server(), change);
  vi.stubGlobal("fetch", server.fetch);
  return { server, copy: new EarCopy(URL) };
}

const all = () => ({ startFrame: 0, endFrame: COUNT });
const words = (reading: Promise<unknown>) =>
  reading.then(
    () => "read",
    (fault: Error) => fault.message,
  );

afterEach(() => vi.unstubAllGlobals());

describe("a stretch of a record", () => {
  it("is fetched by just its bytes, as what the channels share and what tells them apart", async () => {
    const { server, copy } = serve();
    const stretch = await copy.read(() => ({ startFrame: 100, endFrame: 110 }));
    // Four bytes a frame behind a head of 32.
    expect(server.asked).toEqual(["bytes=0-31", "bytes=432-471"]);
    expect(stretch).toMatchObject({ sampleRateHz: 22_050, startFrame: 100, level: 0.25, sideLevel: 0.125 });
    const share = (sign: 1 | -1) =>
      Array.from({ length: 10 }, (_, i) => (left[100 + i]! + sign * right[100 + i]!) / 2);
    expect([...stretch.mid]).toEqual(share(1));
    expect([...stretch.side!]).toEqual(share(-1));
    await copy.read(() => ({ startFrame: 0, endFrame: 1 }));
    expect(server.asked.slice(2)).toEqual(["bytes=32-35"]);
  });

  it("is cut to what there is; past the end it is empty", async () => {
    const { server, copy } = serve();
    expect(await copy.read(() => ({ startFrame: -5, endFrame: 2 }))).toMatchObject({ startFrame: 0 });
    expect((await copy.read(() => ({ startFrame: 990, endFrame: 5_000 }))).mid).toHaveLength(10);
    const asked = server.asked.length;
    expect((await copy.read(() => ({ startFrame: 2_000, endFrame: 3_000 }))).mid).toHaveLength(0);
    expect(server.asked).toHaveLength(asked);
  });

  it("of a mono record has no side", async () => {
    const { copy } = serve({ file: fileOf([left]) });
    const { mid, side } = await copy.read(() => ({ startFrame: 3, endFrame: 9 }));
    expect([[...mid], side]).toEqual([[...left.subarray(3, 9)], null]);
    expect(() => midAndSide([])).toThrow(RangeError);
  });
});

describe("a copy that is not as it was", () => {
  it("is made first where there is none, which is told as it goes", async () => {
    const { server, copy } = serve({ file: null, making: [0, 0.4] });
    const told: number[] = [];
    const stretch = await copy.read(all, { onMaking: (fraction) => told.push(fraction) });
    expect(stretch.mid).toHaveLength(COUNT);
    expect(told).toEqual([0, 0.4]);
    expect(server.asked.slice(0, 4)).toEqual(["bytes=0-31", "make", "make", "make"]);
  });

  it("is opened anew where another has taken its place, or it was removed", async () => {
    const { server, copy } = serve();
    await copy.read(all);
    Object.assign(server, { file: fileOf([left]), etag: '"two"' });
    expect((await copy.read(all)).side).toBeNull();
    server.file = null;
    expect((await copy.read(all)).side).not.toBeNull();
    server.file = fileOf([left]).slice(0, 400);
    expect(await words(copy.read(() => ({ startFrame: 900, endFrame: 901 })))).toMatch(
      /replaced.*Nothing was changed/,
    );
  });

  it("is looked at ahead of time where it is there, and never made for that", async () => {
    const { server, copy } = serve();
    await copy.peek();
    await copy.read(all);
    expect(server.asked).toEqual(["bytes=0-31", "bytes=32-4031"]);
    const without = serve({ file: null });
    await without.copy.peek();
    expect(without.server.asked).toEqual(["bytes=0-31"]);
    const away = serve({ fetch: () => Promise.reject(new TypeError("Failed to fetch")) });
    await away.copy.peek();
  });

  it("is not waited for any longer once the signal says so", async () => {
    const { copy } = serve({ file: null, making: [0.1, 0.2, 0.3] });
    const stop = new AbortController();
    const reading = copy.read(all, { signal: stop.signal, onMaking: () => stop.abort(new Error("enough")) });
    expect(await words(reading)).toBe("enough");
  });
});

describe("what goes wrong on the way", () => {
  it.each<[string, Partial<Server>, RegExp]>([
    [
      "no connection",
      { fetch: () => Promise.reject(new TypeError("Failed to fetch")) },
      /not reached. Nothing was changed/,
    ],
    ["a refusal", { fetch: async () => refusal(404, "not-found") }, /^refused: not-found$/],
    ["half of the bytes", { alter: () => new Response(new Uint8Array(7), { status: 206 }) }, /broke off/],
    ["no ranges", { alter: () => new Response("all of it", { status: 200 }) }, /does not pass ranges on/],
    ["bytes of something else", { file: new Uint8Array(5_000) }, /cannot be read.*Nothing was changed/],
  ])("%s is told in words", async (_, change, message) => {
    const { copy } = serve(change);
    expect(await words(copy.read(all))).toMatch(message);
  });
});
