/** Bytes `start` to `end`, both included. */
export interface ByteRange {
  start: number;
  end: number;
}

/**
 * Reads a `Range` header (RFC 9110, section 14): one range of bytes. `whole` where the header is to be ignored: it
 * is missing, malformed, of another unit, or asks for several ranges at once; `unsatisfiable` where the range
 * lies outside, which is answered with 416.
 */
export function parseRange(header: string | null, byteCount: number): ByteRange | "whole" | "unsatisfiable" {
  const spec = header?.match(/^bytes=\s*(\d*)\s*-\s*(\d*)\s*$/i);
  if (!spec) return "whole";
  const [first, last] = [spec[1] ?? "", spec[2] ?? ""];
  if (first === "" && last === "") return "whole";
  if (first === "") {
    const suffix = Number(last);
    if (suffix === 0 || byteCount === 0) return "unsatisfiable";
    return { start: Math.max(0, byteCount - suffix), end: byteCount - 1 };
  }
  const start = Number(first);
  if (last !== "" && Number(last) < start) return "whole";
  if (start >= byteCount) return "unsatisfiable";
  return { start, end: last === "" ? byteCount - 1 : Math.min(Number(last), byteCount - 1) };
}

/** `If-None-Match` (RFC 9110, section 13.1.2): weak comparison against one strong tag. */
export function matchesNone(header: string | null, etag: string): boolean {
  if (header === null) return true;
  if (header.trim() === "*") return false;
  return !header.split(",").some((one) => one.trim().replace(/^W\//, "") === etag);
}

/** `If-Range` (RFC 9110, section 13.1.5): a range is given only for the very bytes that the asker has part of. */
export function rangeHolds(header: string | null, etag: string): boolean {
  return header === null || header.trim() === etag;
}
