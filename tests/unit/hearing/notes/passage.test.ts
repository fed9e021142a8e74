import { describe, expect, it, vi } from "vitest";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { HearingStopped, HearingWatch } from "@/lib/hearing/HearingWatch";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { RATE_HZ } from "../band";
import { type Played, play } from "./steelSound";

vi.setConfig({ testTimeout: 60_000 });

/** A pair each second for twelve seconds, the low string of every other one pulled up by a pedal. */
const LINE: Played[] = Array.from({ length: 12 }, (_, i) => {
  const startSec = 0.4 + i;
  const string = { startSec, endSec: startSec + 0.9 };
  const glides: Played["glides"] = i % 2 === 0 ? [[startSec + 0.45, 0.1, 61]] : [];
  return [
    { ...string, midi: 59, glides },
    { ...string, midi: 64 + (i % 3) },
  ];
}).flat();

async function listener() {
  const samples = play(LINE);
  const intake = new RecordIntake(RATE_HZ);
  intake.take([samples], samples.length);
  const { notesEar } = await readLearnedEars();
  return { ...intake.finish(), tuningCents: 0, ear: notesEar! };
}

/** What a note is, without certainties: how likely a steel plays at all depends on all that is heard. */
function facts({ startSec, endSec, midi, glides }: HeardNote) {
  return { startSec, endSec, midi, glides: glides.map(({ toMidi, atSec }) => [toMidi, atSec]) };
}

describe("a passage", () => {
  it("is heard as in the whole record, and only what begins in it is told", async () => {
    const record = await listener();
    const whole = hearPassage(record, { startSec: 0, endSec: 13 });
    const passage = hearPassage(record, { startSec: 5, endSec: 8 });
    const within = whole.filter(({ startSec }) => 5 <= startSec && startSec < 8);
    expect(within.length).toBeGreaterThanOrEqual(6);
    expect(passage.map(facts)).toEqual(within.map(facts));
    expect(passage.map(isSteel)).toEqual(within.map(isSteel));
  });

  it("may lie at either end of the record, or hold nothing", async () => {
    const record = await listener();
    expect(hearPassage(record, { startSec: 0, endSec: 1 }).length).toBeGreaterThanOrEqual(2);
    expect(hearPassage(record, { startSec: 11, endSec: 60 }).length).toBeGreaterThanOrEqual(2);
    expect(hearPassage(record, { startSec: 3, endSec: 3 })).toEqual([]);
    expect(hearPassage(record, { startSec: 100, endSec: 110 })).toEqual([]);
  });

  it("must not end before it begins", async () => {
    const record = await listener();
    expect(() => hearPassage(record, { startSec: 4, endSec: 3 })).toThrow(/from 4 s to 3 s/);
    expect(() => hearPassage(record, { startSec: Number.NaN, endSec: 3 })).toThrow(RangeError);
  });

  it("can be stopped while it is heard", async () => {
    const record = await listener();
    const watch = new HearingWatch(undefined, () => true);
    expect(() => hearPassage(record, { startSec: 5, endSec: 8 }, watch.span(0, 1))).toThrow(HearingStopped);
  });
});
