import * as decoding from "lib0/decoding";
import { expect, test } from "vitest";
import { SavedMark } from "@/lib/client/sync/savedMark";
import { HeldLog, openWire, settle, until, words } from "./hubHarness";

/** The first two bytes of messages: sync step 1, sync step 2, update, awareness. */
const STEP_1 = Uint8Array.of(0, 0, 0);
const STEP_2 = Uint8Array.of(0, 1, 0);
const UPDATE = Uint8Array.of(0, 2, 0);
const AWARENESS = Uint8Array.of(1, 2, 0);

const arrive = (mark: SavedMark, step: number) =>
  mark.syncMessageArrived(decoding.createDecoder(Uint8Array.of(step, 0)));

test("nothing is saved before the hub has had the page's answer", () => {
  const mark = new SavedMark();
  mark.socketOpened();
  mark.messageSent(STEP_1);
  mark.savedArrived({ ours: 0, theirs: 0 });
  expect(mark.saved).toBe(false);
  mark.messageSent(STEP_2);
  mark.messageSent(AWARENESS);
  mark.savedArrived({ ours: 1, theirs: 0 });
  expect(mark.saved).toBe(true);
});

test("what came from others counts too", () => {
  const mark = new SavedMark();
  mark.socketOpened();
  mark.messageSent(STEP_2);
  arrive(mark, 0);
  arrive(mark, 1);
  arrive(mark, 2);
  mark.documentChanged("away");
  mark.savedArrived({ ours: 1, theirs: 1 });
  expect(mark.saved).toBe(false);
  mark.savedArrived({ ours: 1, theirs: 2 });
  expect(mark.saved).toBe(true);
});

test("a change that no socket took is saved only after the next socket's answer", () => {
  const mark = new SavedMark();
  mark.socketOpened();
  mark.messageSent(STEP_2);
  mark.savedArrived({ ours: 1, theirs: 0 });
  mark.documentChanged("unsent");
  // A word that was still on its way.
  mark.savedArrived({ ours: 1, theirs: 0 });
  expect(mark.saved).toBe(false);
  mark.socketOpened();
  mark.messageSent(UPDATE);
  mark.savedArrived({ ours: 1, theirs: 0 });
  expect(mark.saved).toBe(false);
  mark.messageSent(STEP_2);
  mark.savedArrived({ ours: 2, theirs: 0 });
  expect(mark.saved).toBe(true);
});

test("another's deletion is not called saved by the commit of what came before it", async () => {
  const log = new HeldLog();
  const wire = await openWire({ updateLog: log });
  try {
    wire.roles.set("ann", "student").set("ben", "student");
    const [ann, ben] = [wire.page("ann"), wire.page("ben")];
    words(ann.doc).set("old", "1");
    await until("both are saved", () => ann.saved && ben.saved && words(ben.doc).has("old"));
    const releaseFirst = log.hold();
    words(ann.doc).set("new", "1");
    await until("ben has it", () => words(ben.doc).has("new"));
    await settle(40);
    words(ann.doc).delete("old");
    await until("ben has the deletion", () => !words(ben.doc).has("old"));
    // The first commit comes through, the second is still held back.
    const releaseSecond = log.hold();
    releaseFirst();
    await settle();
    expect(words(log.read()).toJSON()).toEqual({ old: "1", new: "1" });
    expect([ann.saved, ben.saved]).toEqual([false, false]);
    releaseSecond();
    await until("all is saved", () => ann.saved && ben.saved);
    expect(words(log.read()).toJSON()).toEqual({ new: "1" });
  } finally {
    await wire.close();
  }
});
