import { AppError } from "../AppError";

const READING = new Set(["GET", "HEAD", "OPTIONS"]);

/**
 * Takes requests that change something only from this server's own pages. A request without an Origin comes from no
 * browser (they send it with every such request), so nobody's cookies are abused by it.
 * @throws {AppError} wrong-origin
 */
export function requireOwnOrigin(request: Request, origins: readonly string[]): void {
  if (READING.has(request.method)) return;
  const origin = request.headers.get("origin");
  const site = request.headers.get("sec-fetch-site");
  if (origin === null ? site === "cross-site" : !origins.includes(origin)) throw new AppError("wrong-origin");
}
