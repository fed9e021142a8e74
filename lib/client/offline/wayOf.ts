/**
 * How a request is answered: `hashed` from what is kept first, since it never changes; `plain`, `page` and `song` by the
 * server, and from what is kept only where it is not reached; `server` as if there were no worker.
 */
export type Way = "hashed" | "plain" | "page" | "song" | "server";

const HASHED = /^\/_next\/static\//;
const PLAIN = /^\/(sound\/[\w.-]+\.js|theme\.js|icons?[\w./-]*\.(svg|png)|manifest\.webmanifest)$/;
const SONG = /^\/api\/songs\/[\w-]+\/(record|peaks)$/;

export function wayOf({ method, mode, url }: Pick<Request, "method" | "mode" | "url">, origin: string): Way {
  const address = new URL(url);
  if (method !== "GET" || address.origin !== origin) return "server";
  const { pathname } = address;
  if (mode === "navigate") return pathname.startsWith("/api/") ? "server" : "page";
  if (HASHED.test(pathname)) return "hashed";
  if (PLAIN.test(pathname)) return "plain";
  return SONG.test(pathname) ? "song" : "server";
}

/** The song whose page stands at a path; null at others, with a slash behind it too, from which the server leads on. */
export function songOfPage(pathname: string): string | null {
  return /^\/songs\/([\w-]+)$/.exec(pathname)?.[1] ?? null;
}
