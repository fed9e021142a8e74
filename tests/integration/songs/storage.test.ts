import { createHash } from "node:crypto";
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { matchesNone, parseRange, rangeHolds } from "@/lib/contracts/byteRange";
import { type BlobStore, TooManyBytes } from "@/lib/server/storage/BlobStore";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";

let folder: string;
let blobs: BlobStore;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "liftbook-blobs-"));
  blobs = await openDiskBlobs(folder);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function* chunks(...parts: string[]): AsyncGenerator<Uint8Array> {
  for (const part of parts) yield Buffer.from(part);
}

async function read(sha256: string, start: number, end: number): Promise<string> {
  let text = "";
  for await (const chunk of blobs.openRange(sha256, start, end)) text += String(chunk);
  return text;
}

const waiting = () => readdir(join(folder, "incoming"));

test("bytes are named by their SHA-256 and kept once", async () => {
  // FIPS 180-4, the example "abc" (NIST, Secure Hash Standard examples, SHA-256).
  const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  const first = await blobs.receive(chunks("a", "bc"), { maxBytes: 3 });
  expect(first).toMatchObject({ sha256: abc, byteCount: 3 });
  await blobs.commit(first);
  await blobs.commit(await blobs.receive(chunks("abc"), { maxBytes: 3 }));
  expect(await waiting()).toEqual([]);
  expect(await readdir(join(folder, "blobs", "ba", "78"))).toEqual([abc]);
  expect(await read(abc, 0, 2)).toBe("abc");
  expect(await read(abc, 1, 1)).toBe("b");
  expect(await readFile(await blobs.pathOf(abc), "utf8")).toBe("abc");
});

test("too many bytes, a stream that breaks and a signal leave nothing behind", async () => {
  await expect(blobs.receive(chunks("ab", "cd"), { maxBytes: 3 })).rejects.toThrow(TooManyBytes);
  async function* breaking(): AsyncGenerator<Uint8Array> {
    yield Buffer.from("ab");
    throw new Error("the line broke");
  }
  await expect(blobs.receive(breaking(), { maxBytes: 9 })).rejects.toThrow("the line broke");
  const stop = new AbortController();
  async function* stopped(): AsyncGenerator<Uint8Array> {
    yield Buffer.from("ab");
    stop.abort(new Error("cancelled"));
    yield Buffer.from("cd");
  }
  await expect(blobs.receive(stopped(), { maxBytes: 9, signal: stop.signal })).rejects.toThrow("cancelled");
  expect(await waiting()).toEqual([]);
});

test("a file is taken in and stays where it is; what an earlier run left is removed at the start", async () => {
  const path = join(folder, "record.wav");
  await writeFile(path, "sound");
  const incoming = await blobs.receiveFile(path, { maxBytes: 99 });
  expect(incoming.sha256).toBe(createHash("sha256").update("sound").digest("hex"));
  expect(await readFile(path, "utf8")).toBe("sound");
  expect(await waiting()).toHaveLength(1);
  await openDiskBlobs(folder);
  expect(await waiting()).toEqual([]);
});

test("a file that is gone is refused to whom it was wanted by, and ends nothing else", async () => {
  const gone = join(folder, "gone.wav");
  // Many at once, so that some wait for the disk: a fault thrown meanwhile, where nobody listens, would end the process.
  const taken = await Promise.allSettled(
    Array.from({ length: 200 }, () => blobs.receiveFile(gone, { maxBytes: 99 })),
  );
  for (const each of taken) {
    expect(each.status).toBe("rejected");
    expect((each as PromiseRejectedResult).reason).toMatchObject({ code: "ENOENT" });
  }
  expect(await waiting()).toEqual([]);
});

test("no name but a SHA-256 leads to a file", async () => {
  await expect(blobs.pathOf("../../record.wav")).rejects.toThrow();
  await expect(blobs.pathOf("0".repeat(64))).rejects.toThrow();
});

// The examples of RFC 9110, section 14.1.2, for a representation of 10000 bytes, and its rules for the rest.
test.each([
  ["bytes=0-499", { start: 0, end: 499 }],
  ["bytes=500-999", { start: 500, end: 999 }],
  ["bytes=-500", { start: 9500, end: 9999 }],
  ["bytes=9500-", { start: 9500, end: 9999 }],
  ["bytes=9000-20000", { start: 9000, end: 9999 }],
  ["bytes=-20000", { start: 0, end: 9999 }],
  ["bytes=10000-", "unsatisfiable"],
  ["bytes=-0", "unsatisfiable"],
  ["bytes=5-4", "whole"],
  ["bytes=0-0,-1", "whole"],
  ["lines=1-2", "whole"],
  ["bytes=-", "whole"],
  [null, "whole"],
] as const)("the range %s of 10000 bytes", (header, range) => {
  expect(parseRange(header, 10_000)).toEqual(range);
});

test("conditional requests compare entity tags (RFC 9110, sections 13.1.2 and 13.1.5)", () => {
  expect(matchesNone('"a", W/"b"', '"b"')).toBe(false);
  expect(matchesNone('"a"', '"b"')).toBe(true);
  expect(matchesNone("*", '"b"')).toBe(false);
  expect(matchesNone(null, '"b"')).toBe(true);
  expect(rangeHolds('"b"', '"b"')).toBe(true);
  expect(rangeHolds('W/"b"', '"b"')).toBe(false);
  expect(rangeHolds(null, '"b"')).toBe(true);
});
