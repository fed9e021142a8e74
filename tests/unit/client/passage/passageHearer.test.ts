import { describe, expect, it } from "vitest";
import { bandOver } from "@/lib/client/hearing/passage/bandOver";
import { PassageHearer, type PassageState } from "@/lib/client/hearing/passage/PassageHearer";
import type { PassageNotes } from "@/lib/client/hearing/passage/passageMessages";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { SILENT_STRETCH } from "./silentStretch";

const NOTES: PassageNotes = { version: "ear-1", notes: [] };
const PASSAGE = { startSec: 10.0004, endSec: 12 };

/** A hearer whose copy and ear do as the test says, with all that it told. */
function made({
  read = async () => SILENT_STRETCH,
  hear = async () => NOTES,
}: Partial<{
  read: ConstructorParameters<typeof PassageHearer>[0]["read"];
  hear: ConstructorParameters<typeof PassageHearer>[1]["hear"];
}> = {}) {
  const done: string[] = [];
  const hearer = new PassageHearer(
    { read, peek: async () => void done.push("peek") },
    { warm: () => done.push("warm"), hear, close: () => done.push("close") },
  );
  const told: PassageState[] = [];
  hearer.watch(() => told.push(hearer.now()));
  return { hearer, told, done };
}

/** Waits until it is ended. */
const endless = (signal?: AbortSignal) =>
  new Promise<never>((_, reject) => signal?.addEventListener("abort", () => reject(signal.reason)));

describe("hearing a passage in the browser", () => {
  it("tells each step, and gives the passage in whole milliseconds with its notes", async () => {
    const { hearer, told } = made({
      read: async (place, { onMaking } = {}) => {
        expect(
          place({ channelCount: 2, sampleRateHz: 22_050, frameCount: 9e6, level: 1, sideLevel: 0 }),
        ).toMatchObject({
          startFrame: expect.any(Number),
        });
        onMaking?.(0.3);
        return SILENT_STRETCH;
      },
      hear: async (order, { onProgress } = {}) => {
        expect(order).toMatchObject({
          stretch: SILENT_STRETCH,
          tuningCents: -7,
          passage: { startSec: 10, endSec: 12 },
        });
        onProgress?.(0.5);
        return NOTES;
      },
    });
    expect(await hearer.hear(PASSAGE, -7)).toEqual({ startSec: 10, endSec: 12, ...NOTES });
    expect(told.map(({ underWay }) => underWay && [underWay.step.name, underWay.step.fraction])).toEqual([
      ["fetch", 0],
      ["copy", 0.3],
      ["hear", 0],
      ["hear", 0.5],
      null,
    ]);
    expect(hearer.now().fault).toBeNull();
  });

  it("says what went wrong until the next is asked for", async () => {
    const { hearer } = made({ read: () => Promise.reject(new Error("No line. Nothing was changed.")) });
    expect(await hearer.hear(PASSAGE, null)).toBeNull();
    expect(hearer.now()).toEqual({ underWay: null, fault: "No line. Nothing was changed." });
    const again = hearer.hear(PASSAGE, null);
    expect(hearer.now().fault).toBeNull();
    await again;
  });

  it.each(["read", "hear"] as const)("can be cancelled while it is to %s, without a fault", async (step) => {
    const { hearer } = made({
      read: (_, options) => (step === "read" ? endless(options?.signal) : Promise.resolve(SILENT_STRETCH)),
      hear: (_, options) => endless(options?.signal),
    });
    expect(hearer.cancel()).toBe(false);
    const hearing = hearer.hear(PASSAGE, 0);
    await new Promise((resolve) => setTimeout(resolve));
    expect(hearer.now().underWay?.step.name).toBe(step === "read" ? "fetch" : "hear");
    expect(hearer.cancel()).toBe(true);
    expect(await hearing).toBeNull();
    expect(hearer.now()).toEqual({ underWay: null, fault: null });
  });

  it("hears one passage at a time, and makes all ready ahead of time", async () => {
    const { hearer, done } = made({ hear: (_, options) => endless(options?.signal) });
    hearer.warm();
    const first = hearer.hear(PASSAGE, 0);
    expect(await hearer.hear({ startSec: 1, endSec: 2 }, 0)).toBeNull();
    expect(hearer.now().underWay?.passage.startSec).toBe(10);
    hearer.close();
    expect(await first).toBeNull();
    expect(done).toEqual(["warm", "peek", "close"]);
  });
});

describe("the band's notes beside passages that were heard alone", () => {
  const note = (startSec: number, steel: number): HeardNote => ({
    startSec,
    endSec: startSec + 1,
    midi: 50,
    confidence: 1,
    steel,
    glides: [],
  });
  const starts = (notes: readonly HeardNote[]) => notes.map(({ startSec }) => startSec);

  it("are those of the whole song outside, and of the passage heard last inside", () => {
    const whole = [0, 1, 2, 3].map((startSec) => note(startSec, 0.1));
    expect(bandOver(whole, [])).toBe(whole);
    const one = { startSec: 1, endSec: 3, notes: [note(1.5, 0.1), note(1.6, 0.9), note(2.5, 0.2)] };
    const other = { startSec: 2, endSec: 2.6, notes: [note(2.1, 0.4)] };
    expect(starts(bandOver(whole, [one]))).toEqual([0, 1.5, 2.5, 3]);
    expect(starts(bandOver(whole, [one, other]))).toEqual([0, 1.5, 2.1, 3]);
    expect(starts(bandOver([], [one]))).toEqual([1.5, 2.5]);
  });
});
