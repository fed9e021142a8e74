import { Readable } from "node:stream";
import { matchesNone, parseRange, rangeHolds } from "@/lib/contracts/byteRange";

/** Bytes that never change under their tag. */
export interface RangedBytes {
  /** Strong entity tag, quotes included. */
  etag: string;
  byteCount: number;
  mediaType: string;
  /** Bytes `start` to `end`, both included. */
  open(start: number, end: number): Readable;
}

/** Kept by the asker's own browser, asked for again each time: whether they may have it can change at any time. */
const CACHING = "private, no-cache";

/**
 * Answers GET and HEAD with bytes, whole or by one range (RFC 9110, sections 13 and 14): 200, 206, 304 or 416.
 */
export function rangedResponse(request: Request, bytes: RangedBytes): Response {
  const { etag, byteCount, mediaType } = bytes;
  const headers = new Headers({
    "cache-control": CACHING,
    "accept-ranges": "bytes",
    etag,
    vary: "cookie",
    "x-content-type-options": "nosniff",
  });
  if (!matchesNone(request.headers.get("if-none-match"), etag))
    return new Response(null, { status: 304, headers });

  headers.set("content-type", mediaType);
  headers.set("content-disposition", "inline");
  const asked = rangeHolds(request.headers.get("if-range"), etag) ? request.headers.get("range") : null;
  const range = request.method === "GET" ? parseRange(asked, byteCount) : "whole";
  if (range === "unsatisfiable") {
    headers.set("content-range", `bytes */${byteCount}`);
    headers.delete("content-type");
    return new Response(null, { status: 416, headers });
  }
  const { start, end } = range === "whole" ? { start: 0, end: byteCount - 1 } : range;
  headers.set("content-length", String(end - start + 1));
  if (range !== "whole") headers.set("content-range", `bytes ${start}-${end}/${byteCount}`);
  if (request.method === "HEAD") return new Response(null, { status: 200, headers });
  const body =
    byteCount === 0 ? null : (Readable.toWeb(bytes.open(start, end)) as ReadableStream<Uint8Array>);
  return new Response(body, { status: range === "whole" ? 200 : 206, headers });
}
