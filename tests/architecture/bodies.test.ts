import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";

const API = path.resolve(import.meta.dirname, "../../app/api");

/** Ways to a request's body (Fetch Standard, section 5.3, the body mixin). */
const READS_A_BODY = /request\.body|(?<!Response)\.(json|text|bytes|blob|formData|arrayBuffer)\(/;

it("no route reads a body past lib/server/http/readBody.ts, which ends it at its limit, but those which take recordings and takes", () => {
  const files = readdirSync(API, { recursive: true, encoding: "utf8" }).filter((file) =>
    file.endsWith("route.ts"),
  );
  expect(files.length).toBeGreaterThan(15);
  const reading = files.filter((file) => READS_A_BODY.test(readFileSync(path.join(API, file), "utf8")));
  expect(reading.map((file) => file.replaceAll(path.sep, "/")).sort()).toEqual([
    "books/[bookId]/songs/route.ts",
    "songs/[songId]/takes/[takeId]/route.ts",
  ]);
});
