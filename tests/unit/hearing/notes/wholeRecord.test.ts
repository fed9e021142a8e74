import { describe, expect, it, vi } from "vitest";
import { HEARING_STEPS, type HearingStep } from "@/lib/hearing/Hearing";
import { HearingStopped, hear } from "@/lib/hearing/hear";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { roundNote } from "@/lib/hearing/notes/roundNote";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { RATE_HZ } from "../band";
import { type Played, play } from "./steelSound";

vi.setConfig({ testTimeout: 120_000 });

/** A pair every two seconds for 64 s, longer than one piece; at the border of the pieces one sounds on. */
const PAIRS: Played[] = Array.from({ length: 32 }, (_, i) => {
  const startSec = 0.5 + 2 * i;
  const string = { startSec, endSec: startSec + 1.8 };
  return [
    { ...string, midi: 59, glides: i % 2 === 0 ? [[startSec + 0.9, 0.1, 61]] : [] },
    { ...string, midi: 64 + (i % 3) },
  ] satisfies Played[];
}).flat();

describe("the notes of a whole record", () => {
  it("are heard once the tuning is known, piece by piece, each once, over the borders of the pieces too", async () => {
    const ears = await readLearnedEars();
    const steps: HearingStep[] = [];
    const fractions: number[] = [];
    const { notes } = hear(play(PAIRS), RATE_HZ, {
      ...ears,
      notes: true,
      onProgress: (step, fraction) => {
        if (steps.at(-1) !== step) steps.push(step);
        if (step === "notes") fractions.push(fraction);
      },
    });
    expect(steps).toEqual(["tuning", "notes", ...HEARING_STEPS.slice(1)]);
    expect([fractions[0], fractions.at(-1)]).toEqual([0, 1]);
    expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
    for (const { startSec, midi } of PAIRS) {
      const found = notes!.filter(
        (note) => Math.abs(note.startSec - startSec) < 0.05 && Math.abs(note.midi - midi) < 0.5,
      );
      expect(found, `${midi} at ${startSec} s`).toHaveLength(1);
      expect(isSteel(found[0]!)).toBe(true);
    }
    expect(notes!.map(roundNote)).toEqual(notes);
    const startsSec = notes!.map(({ startSec }) => startSec);
    expect(startsSec).toEqual([...startsSec].sort((a, b) => a - b));
  });

  it("can be stopped while they are heard", async () => {
    const ears = await readLearnedEars();
    let now: HearingStep | undefined;
    const stopped = () =>
      hear(play(PAIRS.slice(0, 8)), RATE_HZ, {
        ...ears,
        notes: true,
        onProgress: (step) => {
          now = step;
        },
        shouldStop: () => now === "notes",
      });
    expect(stopped).toThrow(new HearingStopped("notes"));
  });

  it("are none, and said to be none, without a learned ear; unasked, nothing is said of them", () => {
    const samples = play(PAIRS.slice(0, 4));
    expect(hear(samples, RATE_HZ, { notes: true }).notes).toBeNull();
    expect(hear(samples, RATE_HZ)).not.toHaveProperty("notes");
  });
});

describe("a note rounded for keeping", () => {
  it("keeps milliseconds, cents and percents", () => {
    const glide = { kind: "bar" as const, toMidi: 62.0449, atSec: 1.50049, durationSec: 0.0806 };
    const note = { startSec: 1.23456, endSec: 2.0004, midi: 59.996, confidence: 0.876, steel: 0.499 };
    expect(roundNote({ ...note, glides: [glide] })).toEqual({
      ...{ startSec: 1.235, endSec: 2, midi: 60, confidence: 0.88, steel: 0.5 },
      glides: [{ kind: "bar", toMidi: 62.04, atSec: 1.5, durationSec: 0.081 }],
    });
  });
});
