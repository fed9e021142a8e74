import { parseRange } from "@/lib/contracts/byteRange";

/**
 * Answers a request from bytes that are kept, whole or by one range (RFC 9110, section 14): players ask for records so.
 * @param kept the whole, as it was answered once with 200
 * @param range the request's `Range` header, or null
 */
export async function answerKept(kept: Response, range: string | null): Promise<Response> {
  const bytes = await kept.blob();
  const headers = new Headers({
    "accept-ranges": "bytes",
    "content-type": kept.headers.get("content-type") ?? "application/octet-stream",
    // The browser's own cache is not to hold what a person's cache gives up when they sign out.
    "cache-control": "no-store",
  });
  const asked = parseRange(range, bytes.size);
  if (asked === "unsatisfiable") {
    headers.set("content-range", `bytes */${bytes.size}`);
    return new Response(null, { status: 416, headers });
  }
  if (asked === "whole") {
    headers.set("content-length", String(bytes.size));
    return new Response(bytes, { headers });
  }
  const { start, end } = asked;
  headers.set("content-range", `bytes ${start}-${end}/${bytes.size}`);
  headers.set("content-length", String(end - start + 1));
  return new Response(bytes.slice(start, end + 1), { status: 206, headers });
}
