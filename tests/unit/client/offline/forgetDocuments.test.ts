import { expect, it } from "vitest";
import { forgetDocuments } from "@/lib/client/kept/forgetDocuments";
import { UnsentSongs } from "@/lib/client/kept/UnsentSongs";
import { documentStoreName } from "@/lib/client/sync/documentStore";

function storage() {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
}

function stores(...names: string[]) {
  const left = new Set(names);
  return {
    left,
    databases: async () => [...left].map((name) => ({ name })),
    deleteDatabase: (name: string) => left.delete(name),
  };
}

const adas = documentStoreName("ada", "one");
const adasUnsent = documentStoreName("ada", "two");
const bens = documentStoreName("ben", "one");

it("signing out gives up what the server has, and keeps what it may not have and what is not ours", async () => {
  const kept = storage();
  new UnsentSongs("ada", kept).mark("two", true);
  const here = stores(adas, adasUnsent, bens, "something else");
  await forgetDocuments(null, here, kept);
  expect([...here.left]).toEqual([adasUnsent, "something else"]);
});

it("signing in keeps one's own", async () => {
  const here = stores(adas, bens);
  expect(await forgetDocuments("ben", here, storage())).toEqual([adas]);
  expect(await forgetDocuments("ben", { deleteDatabase: () => {} }, storage())).toEqual([]);
});

it("a song is marked as not sent once, until it is, each for its person", () => {
  const kept = storage();
  const ada = new UnsentSongs("ada", kept);
  for (const songId of ["one", "two", "one"]) expect(ada.mark(songId, true)).toBe(true);
  expect(ada.list()).toEqual(["two", "one"]);
  expect(new UnsentSongs("ben", kept).list()).toEqual([]);
  ada.mark("two", false);
  ada.mark("one", false);
  expect(ada.list()).toEqual([]);
});
