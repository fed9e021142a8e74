/** A CacheStorage in memory, as far as the tests use one (Service Workers, "Cache"): keyed by path, each answer read afresh. */
export function memoryCaches(): CacheStorage {
  const caches = new Map<string, Cache>();
  return {
    async open(name: string) {
      const made = caches.get(name) ?? memoryCache();
      caches.set(name, made);
      return made;
    },
    has: async (name: string) => caches.has(name),
    keys: async () => [...caches.keys()],
    delete: async (name: string) => caches.delete(name),
  } as unknown as CacheStorage;
}

const ORIGIN = "https://lift.example";

function memoryCache(): Cache {
  const kept = new Map<string, { bytes: Blob; headers: Headers; status: number }>();
  const keyOf = (request: RequestInfo | URL) =>
    new URL(request instanceof Request ? request.url : String(request), ORIGIN).href;
  return {
    async put(request: RequestInfo, answer: Response) {
      kept.set(keyOf(request), {
        bytes: await answer.blob(),
        headers: answer.headers,
        status: answer.status,
      });
    },
    async match(request: RequestInfo) {
      const found = kept.get(keyOf(request));
      return found && new Response(found.bytes, { headers: found.headers, status: found.status });
    },
    delete: async (request: RequestInfo) => kept.delete(keyOf(request)),
    keys: async () => [...kept.keys()].map((url) => new Request(url)),
  } as unknown as Cache;
}
