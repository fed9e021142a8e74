import { pages } from "@/lib/contracts/api";
import { BUILD_CACHES, type BuildFiles } from "@/lib/contracts/offline";
import { KeptSongs } from "../kept/KeptSongs";
import { answerKept } from "./answerKept";
import { songOfPage, wayOf } from "./wayOf";

/** What stands in for a server that does not answer: a gateway's own words that it is not reached. */
const UNREACHED = new Set([502, 503, 504]);

/** The files of a build are everyone's, whatever cookie they came by. */
const AS_KEPT = { ignoreVary: true } as const;

/** What the service worker does; the surroundings are handed in. */
export class OfflineAnswers {
  private readonly buildCache: string;
  private readonly songs: KeptSongs;

  constructor(
    private readonly build: BuildFiles,
    private readonly origin: string,
    private readonly caches: CacheStorage,
    private readonly fetchIt: (request: RequestInfo, init?: RequestInit) => Promise<Response>,
  ) {
    this.buildCache = BUILD_CACHES + build.id;
    this.songs = new KeptSongs(caches, fetchIt);
  }

  /**
   * Keeps the pages' files of this build, all or none.
   * @throws where one of them is not to be had; the browser then tries again later, and the worker before goes on
   */
  async keepBuild(): Promise<void> {
    const { hashed, plain } = this.build;
    const cache = await this.caches.open(this.buildCache);
    const fresh = [...plain, pages.kept()];
    await Promise.all([
      ...hashed.map((path) => this.keepFile(cache, path)),
      ...fresh.map((path) => this.keepFile(cache, path, "reload")),
    ]);
  }

  private async keepFile(cache: Cache, path: string, mode?: RequestCache): Promise<void> {
    const answer = await this.fetchIt(path, { cache: mode, credentials: "omit" });
    if (!answer.ok || answer.redirected) throw new Error(`${path} answered ${answer.status}`);
    await cache.put(path, answer);
  }

  /** Gives up the files of other builds; nothing on screen stands on them any more. */
  async forgetOtherBuilds(): Promise<void> {
    const names = await this.caches.keys();
    const others = names.filter((name) => name.startsWith(BUILD_CACHES) && name !== this.buildCache);
    await Promise.all(others.map((name) => this.caches.delete(name)));
  }

  /** @returns null where the browser is to ask the server itself */
  answer(request: Request): Promise<Response> | null {
    switch (wayOf(request, this.origin)) {
      case "hashed":
        return this.keptFirst(request);
      case "plain":
        return this.serverFirst(request);
      case "page":
        return this.page(request);
      case "song":
        return this.ofSong(request);
      case "server":
        return null;
    }
  }

  private async keptFirst(request: Request): Promise<Response> {
    const cache = await this.caches.open(this.buildCache);
    const kept = await cache.match(request.url, AS_KEPT);
    if (kept) return atAskedAddress(request, kept);
    const answer = await this.fetchIt(request);
    if (answer.status === 200) await cache.put(request.url, answer.clone());
    return atAskedAddress(request, answer);
  }

  private async serverFirst(request: Request): Promise<Response> {
    try {
      return await this.fetchIt(request);
    } catch (unreached) {
      const kept = await (await this.caches.open(this.buildCache)).match(request.url, AS_KEPT);
      if (kept) return kept;
      throw unreached;
    }
  }

  /** Any page; where the server is not reached, the one that opens what is kept, at the same address. */
  private async page(request: Request): Promise<Response> {
    let answer: Response;
    try {
      answer = await this.fetchIt(request);
    } catch (unreached) {
      return (await this.keptPage()) ?? Promise.reject(unreached);
    }
    const songId = songOfPage(new URL(request.url).pathname);
    // A song's page leads on only to signing in: nobody is signed in any more, so nobody's songs are kept.
    if (songId !== null && answer.type === "opaqueredirect") await this.songs.forgetAllBut(null);
    if (songId !== null && answer.status === 404) await this.songs.forgetSong(songId);
    return UNREACHED.has(answer.status) ? ((await this.keptPage()) ?? answer) : answer;
  }

  private async keptPage(): Promise<Response | undefined> {
    return (await this.caches.open(this.buildCache)).match(pages.kept(), AS_KEPT);
  }

  private async ofSong(request: Request): Promise<Response> {
    try {
      return await this.fetchIt(request);
    } catch (unreached) {
      const kept = await this.songs.match(request.url);
      if (!kept) throw unreached;
      return answerKept(kept, request.headers.get("range"));
    }
  }
}

/**
 * The script of a worker stands at its answer's own address, which has lost what follows `#` in the one asked for; by that the bundler
 * tells it what to run. An answer without an address stands at the one asked for (Fetch, "HTTP fetch").
 */
function atAskedAddress({ destination }: Request, answer: Response): Response {
  return destination === "worker" ? new Response(answer.body, answer) : answer;
}
