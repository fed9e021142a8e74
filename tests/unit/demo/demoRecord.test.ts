import { beforeAll, describe, expect, it } from "vitest";
import type { Hearing } from "@/lib/hearing/Hearing";
import { hear } from "@/lib/hearing/hear";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { encodeWav } from "@/lib/synth/encodeWav";
import { parseHarte } from "@/lib/theory/harte";
import { demoTruth } from "@/prisma/demo/demoTruth";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";

const GENEROUS_MS = 180_000;
const truth = demoTruth();
let record: ReturnType<typeof renderDemoRecord>;

beforeAll(() => {
  record = renderDemoRecord();
}, GENEROUS_MS);

describe("the demo record", () => {
  it(
    "is loud enough, never clips and is the same every time",
    () => {
      for (const channel of record.channels) {
        let peak = 0;
        for (const sample of channel) peak = Math.max(peak, Math.abs(sample));
        expect(peak).toBeGreaterThan(0.7);
        expect(peak).toBeLessThan(1);
      }
      const again = renderDemoRecord();
      const bytes = (made: typeof record) => Buffer.from(encodeWav(made.channels, made.sampleRateHz));
      expect(bytes(again).equals(bytes(record))).toBe(true);
    },
    GENEROUS_MS,
  );
});

const EARS: [string, () => Promise<LearnedEar | null>][] = [
  ["the signal alone", async () => null],
  ["the learned ear with it", () => readLearnedEar()],
];

describe.each(EARS)("what %s makes of the demo record", (_, readEar) => {
  let heard: Hearing;
  beforeAll(async () => {
    const [left, right] = record.channels;
    const mono = left!.map((sample, index) => (sample + right![index]!) / 2);
    heard = hear(mono, record.sampleRateHz, { ear: await readEar() });
  }, GENEROUS_MS);

  it("finds how far it runs sharp, and home", () => {
    expect(Math.abs(heard.tuningCents - truth.tuningCents)).toBeLessThan(3);
    expect(heard.homes.map(({ tonic, mode }) => ({ tonic, mode }))).toEqual([truth.key]);
  });

  it("finds the beats and the downbeats, within 70 ms (the usual window of beat tracking measures)", () => {
    const found = truth.beats.filter((beat) =>
      heard.grid.beats.some(
        (other) => other.inBar === beat.inBar && Math.abs(other.timeSec - beat.timeSec) < 0.07,
      ),
    );
    expect(found.length).toBeGreaterThan(0.9 * truth.beats.length);
    expect(Math.abs(heard.grid.tempoBpm - truth.tempoBpm)).toBeLessThan(2);
  });

  it("finds the root and third of the changes most of the time", () => {
    let right = 0;
    let all = 0;
    for (const change of truth.changes) {
      for (let timeSec = change.startSec + 0.05; timeSec < change.endSec; timeSec += 0.1) {
        const chord = heard.chords.find((other) => other.startSec <= timeSec && timeSec < other.endSec);
        all += 1;
        if (triad(chord?.label ?? "N") === triad(change.label)) right += 1;
      }
    }
    expect(right / all).toBeGreaterThan(0.8);
  });
});

function triad(label: string): string {
  const chord = parseHarte(label);
  if (chord === null) return "N";
  const third = chord.pitchClasses.includes((chord.rootPitchClass + 3) % 12) ? "minor" : "major";
  return `${chord.rootPitchClass} ${third}`;
}
