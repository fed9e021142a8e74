import { afterEach, expect, test } from "vitest";
import * as Y from "yjs";
import { HeldLog, openWire, settle, until, type Wire, words } from "./hubHarness";

let wire: Wire | null = null;
afterEach(async () => {
  await wire?.close();
  wire = null;
});

async function open(log: HeldLog, timing = {}): Promise<Wire> {
  wire = await openWire({ updateLog: log, timing });
  wire.roles.set("ann", "teacher").set("ben", "student").set("lou", "listener");
  return wire;
}

test("two pages converge", async () => {
  const { page } = await open(new HeldLog());
  const [a, b] = [page("ann"), page("ben")];
  await until("both are connected", () => a.status === "connected" && b.status === "connected");
  words(a.doc).set("x", "from a");
  words(b.doc).set("y", "from b");
  await until("both have both", () => words(a.doc).size === 2 && words(b.doc).size === 2);
  expect(words(a.doc).toJSON()).toEqual(words(b.doc).toJSON());
});

test("saved is said only after the database has it", async () => {
  const log = new HeldLog();
  const { page } = await open(log);
  const a = page("ann");
  await until("the empty song is saved", () => a.saved);
  const release = log.hold();
  words(a.doc).set("x", "1");
  expect(a.saved).toBe(false);
  await settle();
  expect(a.saved).toBe(false);
  release();
  await until("it is saved", () => a.saved);
  expect(words(log.read()).get("x")).toBe("1");
});

test("a change made of deletions alone goes unsaved and comes back only when committed", async () => {
  const log = new HeldLog();
  const { page } = await open(log);
  const a = page("ann");
  await until("connected", () => a.saved);
  words(a.doc).set("x", "1");
  await until("x is saved", () => a.saved);
  const before = Y.encodeStateVector(a.doc);
  const release = log.hold();
  words(a.doc).delete("x");
  expect(Y.encodeStateVector(a.doc)).toEqual(before);
  expect(a.saved).toBe(false);
  await settle();
  expect(a.saved).toBe(false);
  release();
  await until("the deletion is saved", () => a.saved);
  expect(words(log.read()).has("x")).toBe(false);
});

test("a database that refuses: kept in memory, never called saved, pages sent away with 4500, then all is saved", async () => {
  const log = new HeldLog();
  const { page, raw } = await open(log, { giveUpMs: 150, firstPauseMs: 10, longestPauseMs: 30 });
  const a = page("ann");
  await until("connected", () => a.saved);
  const codes: number[] = [];
  const watcher = raw("ben");
  watcher.on("close", (code) => codes.push(code));
  await new Promise((resolve) => watcher.once("message", resolve));
  log.refusing = true;
  words(a.doc).set("x", "1");
  await until("the page is sent away", () => a.status === "offline");
  await until("the other is told the code", () => codes.length > 0);
  expect(codes).toEqual([4500]);
  expect(a.saved).toBe(false);
  expect(log.rows).toHaveLength(0);
  words(a.doc).set("y", "made meanwhile");
  log.refusing = false;
  await until("all is saved", () => a.saved && a.status === "connected");
  expect(words(log.read()).toJSON()).toEqual({ x: "1", y: "made meanwhile" });
});

test("everything called saved is there after the hub is gone and opened anew", async () => {
  const log = new HeldLog();
  const first = await open(log);
  const a = first.page("ann");
  await until("connected", () => a.saved);
  for (let i = 0; i < 50; i++) words(a.doc).set(`k${i}`, String(i));
  await until("saved", () => a.saved);
  const shown = words(a.doc).toJSON();
  // No stop: only what the log holds goes over, as after kill -9.
  const again = new HeldLog();
  again.rows.push(...log.rows);
  const second = await openWire({ updateLog: again });
  second.roles.set("ben", "student");
  const b = second.page("ben");
  await until("b has it", () => b.status === "connected");
  expect(words(b.doc).toJSON()).toEqual(shown);
  await second.close();
});

test("edits made while the line is down come back, and are saved", async () => {
  const log = new HeldLog();
  const { page, cut } = await open(log);
  const [a, b] = [page("ann"), page("ben")];
  await until("connected", () => a.saved && b.saved);
  words(a.doc).set("stays", "no");
  await until("both have it", () => a.saved && words(b.doc).has("stays"));
  let away = false;
  a.subscribe(() => {
    if (a.status !== "offline" || away) return;
    away = true;
    // Made while no line is open: an insertion and a deletion.
    words(a.doc).set("offline", "yes");
    words(a.doc).delete("stays");
  });
  const release = log.hold();
  cut("ann");
  await until("a is offline", () => away);
  expect(a.saved).toBe(false);
  await until("a is back", () => a.status === "connected");
  await until("b sees it", () => words(b.doc).get("offline") === "yes" && !words(b.doc).has("stays"));
  expect(a.saved).toBe(false);
  release();
  await until("saved", () => a.saved && b.saved);
  expect(words(log.read()).toJSON()).toEqual({ offline: "yes" });
});

test("messages that come while the song loads are kept, and it is loaded once for many", async () => {
  const log = new HeldLog();
  let loaded = () => {};
  log.loadGate = new Promise((resolve) => {
    loaded = resolve;
  });
  const stored = new Y.Doc();
  words(stored).set("old", "kept");
  log.rows.push(Y.encodeStateAsUpdate(stored));
  const { page } = await open(log);
  const pages = ["ann", "ben", "ann"].map((user) => page(user));
  await settle();
  for (const [i, one] of pages.entries()) words(one.doc).set(`n${i}`, "early");
  loaded();
  await until("all have all", () => pages.every((one) => words(one.doc).size === 4 && one.saved));
  expect(log.loads).toBe(1);
  expect(words(log.read()).size).toBe(4);
});

test("an edit of the server resolves only when committed", async () => {
  const log = new HeldLog();
  const { hub } = await open(log);
  const release = log.hold();
  let done = false;
  const edit = hub
    .edit("song", (doc) => words(doc).set("m", "machine"))
    .then(() => {
      done = true;
    });
  await settle();
  expect(done).toBe(false);
  release();
  await edit;
  expect(words(log.read()).get("m")).toBe("machine");
});

test("a song removed while it is open: its pages are sent away for good", async () => {
  const log = new HeldLog();
  const { page } = await open(log);
  const a = page("ann");
  await until("connected", () => a.saved);
  log.gone = true;
  words(a.doc).set("x", "1");
  await until("refused", () => a.status === "refused");
  expect(a.refusal).toBe(4404);
  expect(a.saved).toBe(false);
});
