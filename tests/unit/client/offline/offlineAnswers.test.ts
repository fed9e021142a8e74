import { describe, expect, it } from "vitest";
import { answerKept } from "@/lib/client/offline/answerKept";
import { OfflineAnswers } from "@/lib/client/offline/OfflineAnswers";
import { songOfPage, wayOf } from "@/lib/client/offline/wayOf";
import { memoryCaches } from "./memoryCaches";

const ORIGIN = "https://lift.example";
const FILES = { id: "one", hashed: ["/_next/static/a.js"], plain: ["/theme.js"] };

/** A server that can be taken away, and counts what it is asked. */
function surroundings(build = FILES) {
  const caches = memoryCaches();
  const server = {
    isReached: true,
    asked: [] as string[],
    page: (): Response => new Response("from the server"),
  };
  const fetchIt = async (request: RequestInfo) => {
    const path = new URL(request instanceof Request ? request.url : request, ORIGIN).pathname;
    if (!server.isReached) throw new TypeError("not reached");
    server.asked.push(path);
    if (path === "/kept") return new Response("what is kept");
    return path.startsWith("/songs/") ? server.page() : new Response(`${path} of ${build.id}`);
  };
  return { caches, server, worker: new OfflineAnswers(build, ORIGIN, caches, fetchIt) };
}

/** A request for a page; Node makes none with mode "navigate". */
function pageRequest(path: string): Request {
  const request = new Request(ORIGIN + path);
  Object.defineProperty(request, "mode", { value: "navigate" });
  return request;
}

const songRequest = (range?: string) =>
  new Request(`${ORIGIN}/api/songs/a/record`, { headers: range ? { range } : {} });

describe("which way a request is answered", () => {
  const way = (path: string, mode: RequestMode = "cors", method = "GET") =>
    wayOf({ url: ORIGIN + path, mode, method }, ORIGIN);
  it("leaves to the server what is written, signed in by, or another site's", () => {
    expect(way("/api/songs/a/record", "cors", "POST")).toBe("server");
    expect(way("/api/auth/get-session")).toBe("server");
    expect(way("/api/songs/a/notes")).toBe("server");
    expect(way("/api/songs/a/record", "navigate")).toBe("server");
    expect(wayOf({ url: "https://other.example/theme.js", mode: "cors", method: "GET" }, ORIGIN)).toBe(
      "server",
    );
  });
  it("knows pages, files of the build, and what is of a song", () => {
    expect(way("/books", "navigate")).toBe("page");
    expect(way("/_next/static/chunks/0a.js")).toBe("hashed");
    expect(way("/sound/strings.js")).toBe("plain");
    expect(way("/api/songs/a-1/record")).toBe("song");
    expect(way("/api/songs/a-1/peaks")).toBe("song");
    expect(songOfPage("/songs/a-1")).toBe("a-1");
    expect(songOfPage("/songs/a-1/more")).toBeNull();
    // Led on to the address without the slash, not to signing in.
    expect(songOfPage("/songs/a-1/")).toBeNull();
  });
});

describe("a worker's script", () => {
  // Fetch, "HTTP fetch": an answer without an address of its own stands at the one asked for, with what follows `#` there.
  it("stands at the address it was asked for by, kept or fetched", async () => {
    const { worker, caches } = surroundings();
    const asked = (destination: string) =>
      Object.defineProperty(new Request(`${ORIGIN}/_next/static/a.js`), "destination", {
        value: destination,
      });
    const { url, body } = await worker.answer(asked("worker"))!;
    expect([url, await new Response(body).text()]).toEqual(["", "/_next/static/a.js of one"]);
    const kept = new Response("kept");
    Object.defineProperty(kept, "url", { value: `${ORIGIN}/_next/static/a.js` });
    const cache = await caches.open("liftbook-build/one");
    cache.match = async () => kept;
    caches.open = async () => cache;
    expect((await worker.answer(asked("worker")))?.url).toBe("");
    expect(await worker.answer(asked("script"))).toBe(kept);
  });
});

describe("without the server", () => {
  it("pages come from what is kept, and hashed files from there at once", async () => {
    const { worker, server } = surroundings();
    await worker.keepBuild();
    server.isReached = false;
    expect(await (await worker.answer(pageRequest("/books")))?.text()).toBe("what is kept");
    const script = new Request(`${ORIGIN}/_next/static/a.js`);
    expect(await (await worker.answer(script))?.text()).toBe("/_next/static/a.js of one");
    const plain = new Request(`${ORIGIN}/theme.js`);
    expect(await (await worker.answer(plain))?.text()).toBe("/theme.js of one");
    await expect(worker.answer(songRequest())).rejects.toThrow("not reached");
  });

  it("a gateway's word that the server is away counts as not reached", async () => {
    const { worker, server } = surroundings();
    await worker.keepBuild();
    server.page = () => new Response("bad gateway", { status: 502 });
    expect(await (await worker.answer(pageRequest("/songs/a")))?.text()).toBe("what is kept");
  });

  it("records come by ranges from the one person's cache, and from nobody's where there are two", async () => {
    const { worker, server, caches } = surroundings();
    const cache = await caches.open("liftbook-kept/ada");
    await cache.put("/api/songs/a/record", new Response("0123456789"));
    server.isReached = false;
    const part = await worker.answer(songRequest("bytes=2-4"));
    expect(part?.status).toBe(206);
    expect(part?.headers.get("content-range")).toBe("bytes 2-4/10");
    expect(await part?.text()).toBe("234");
    await caches.open("liftbook-kept/ben");
    await expect(worker.answer(songRequest())).rejects.toThrow("not reached");
  });
});

describe("with the server", () => {
  it("pages and plain files are its own, and hashed files are asked for once", async () => {
    const { worker, server } = surroundings();
    await worker.keepBuild();
    expect(await (await worker.answer(pageRequest("/songs/a")))?.text()).toBe("from the server");
    const before = server.asked.length;
    await worker.answer(new Request(`${ORIGIN}/_next/static/a.js`));
    expect(server.asked.length).toBe(before);
    await worker.answer(new Request(`${ORIGIN}/theme.js`));
    expect(server.asked.at(-1)).toBe("/theme.js");
  });

  it("a song that is no longer to be had is given up, and all are where nobody is signed in", async () => {
    const { worker, server, caches } = surroundings();
    const keep = async () => {
      const cache = await caches.open("liftbook-kept/ada");
      for (const id of ["a", "b"]) await cache.put(`/api/songs/${id}`, new Response("{}"));
      return cache;
    };
    const cache = await keep();
    server.page = () => new Response("nothing here", { status: 404 });
    await worker.answer(pageRequest("/songs/a"));
    expect(await cache.match("/api/songs/a")).toBeUndefined();
    expect(await cache.match("/api/songs/b")).toBeDefined();
    server.page = () => {
      const away = new Response(null);
      Object.defineProperty(away, "type", { value: "opaqueredirect" });
      return away;
    };
    await worker.answer(pageRequest("/songs/b"));
    expect(await caches.keys()).not.toContain("liftbook-kept/ada");
  });

  it("a build is kept whole or not at all, and gives up that of another id", async () => {
    const { worker, caches, server } = surroundings();
    await caches.open("liftbook-build/before");
    await caches.open("liftbook-kept/ada");
    await worker.keepBuild();
    await worker.forgetOtherBuilds();
    expect(await caches.keys()).toEqual(["liftbook-kept/ada", "liftbook-build/one"]);
    server.isReached = false;
    await expect(worker.keepBuild()).rejects.toThrow();
  });
});

describe("answering from kept bytes", () => {
  const kept = () => new Response("0123456789", { headers: { "content-type": "audio/ogg" } });
  it("gives the whole, an open range, the last bytes, and 416 outside (RFC 9110, section 14)", async () => {
    const whole = await answerKept(kept(), null);
    expect([whole.status, whole.headers.get("content-length"), await whole.text()]).toEqual([
      200,
      "10",
      "0123456789",
    ]);
    expect(whole.headers.get("cache-control")).toBe("no-store");
    expect(await (await answerKept(kept(), "bytes=7-")).text()).toBe("789");
    expect(await (await answerKept(kept(), "bytes=-2")).text()).toBe("89");
    const outside = await answerKept(kept(), "bytes=10-");
    expect([outside.status, outside.headers.get("content-range")]).toEqual([416, "bytes */10"]);
  });
});
