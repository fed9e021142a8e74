import { access, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runRender } from "@/lib/cli/render";
import { midiToHertz } from "@/lib/units/pitch";
import { strengthAt } from "../../unit/synth/measurePitch";
import { peakCentsFrom } from "../../unit/synth/spectralPitch";
import { runCli } from "./runCli";

let folder = "";
let out = "";
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-render-"));
  out = path.join(folder, "out.wav");
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

async function render(request: unknown) {
  const part = path.join(folder, "part.json");
  await writeFile(part, JSON.stringify(request));
  return runCli("render", part, "-o", out);
}

/** Reads what was written, by the layout of the format itself (see encodeWav.test.ts). */
async function readWav(): Promise<{
  samples: Float32Array;
  sampleRateHz: number;
  channels: number;
  bits: number;
}> {
  const bytes = await readFile(out);
  const samples = Float32Array.from(
    { length: (bytes.length - 44) / 2 },
    (_, index) => bytes.readInt16LE(44 + 2 * index) / 32768,
  );
  return {
    samples,
    sampleRateHz: bytes.readUInt32LE(24),
    channels: bytes.readUInt16LE(22),
    bits: bytes.readUInt16LE(34),
  };
}

// E9 as in domain sections 1.1 and 1.2 (b0b.com, B. Lee): at fret 5 string 4 sounds A4 and string 5 E4, F#4 with pedal A.
const PART = {
  copedent: "e9",
  tuningCents: 14,
  events: [
    { start: 0.5, end: 1.5, strings: [4, 5], fret: 5, changes: [] },
    { start: 1.5, end: 2.5, strings: [4, 5], fret: 5, changes: ["A"], articulation: "press" },
    { start: 3, end: 4, strings: [4, 5], fret: 5 },
    { start: 4, end: 5, strings: [4, 5], fret: 7, articulation: "slide" },
  ],
};

describe("render", () => {
  it("writes 16-bit mono at 44.1 kHz whose notes stand where the part says, in its tuning", async () => {
    expect(await render(PART)).toEqual({ code: 0, stdout: "", stderr: "" });
    const { samples, sampleRateHz, channels, bits } = await readWav();
    expect([sampleRateHz, channels, bits]).toEqual([44100, 1, 16]);
    expect(samples.length).toBe(Math.ceil(5.2 * 44100));
    const cents = (midi: number, startSec: number) =>
      peakCentsFrom(midiToHertz(midi), samples, sampleRateHz, startSec, 0.7);
    for (const [midi, startSec] of [
      [69, 0.6],
      [64, 0.6],
      [69, 1.7],
      [66, 1.7],
      [71, 4.2],
      [66, 4.2],
    ] as const)
      expect(Math.abs(cents(midi, startSec) - 14)).toBeLessThan(2);
    const silent = (fromSec: number, toSec: number) =>
      samples.subarray(fromSec * 44100, toSec * 44100).every((sample) => sample === 0);
    expect(silent(0, 0.49)).toBe(true);
    expect(silent(2.6, 2.99)).toBe(true);
    expect(samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)).toBeGreaterThan(0.7);
  });

  it("is heard again by hear: its pairs with the pedal under the upper voice, and the bar under both", async () => {
    expect((await render({ ...PART, tuningCents: 0 })).code).toBe(0);
    const { code, stdout } = await runCli("hear", out);
    expect(code).toBe(0);
    const { notes } = JSON.parse(stdout) as {
      notes: { start: number; midi: number; glide?: { toMidi: number } }[];
    };
    const heard = (startSec: number, midi: number) =>
      notes.find((note) => Math.abs(note.start - startSec) < 0.06 && Math.abs(note.midi - midi) < 0.5);
    expect(notes).toHaveLength(4);
    expect(heard(0.5, 69)?.glide).toBeUndefined();
    expect(heard(0.5, 64)?.glide?.toMidi).toBeCloseTo(66, 0);
    expect(heard(3, 69)?.glide?.toMidi).toBeCloseTo(71, 0);
    expect(heard(3, 64)?.glide?.toMidi).toBeCloseTo(66, 0);
  });

  it("takes a chart of one's own, and a fret for each string", async () => {
    // A bar slanted over two strings an octave and a fifth up from E2 and B2.
    const copedent = { strings: [59, 52], changes: [{ id: "P", slot: "P1", moves: { "1": 2 } }] };
    const events = [{ start: 0, end: 1, strings: [1, 2], fret: 5, frets: [5, 6], changes: ["P"] }];
    expect((await render({ copedent, events })).code).toBe(0);
    const { samples } = await readWav();
    const strength = (midi: number) => strengthAt(midiToHertz(midi), samples, 44100, 0.1, 0.7);
    expect(strength(66)).toBeGreaterThan(20 * strength(64.5));
    expect(strength(58)).toBeGreaterThan(20 * strength(57));
  });

  it.each<[string, unknown, RegExp]>([
    ["no JSON", "{", /is not JSON/],
    ["no events", { copedent: "e9", events: [] }, /events must hold at least one event/],
    ["an unknown copedent", { ...PART, copedent: "f10" }, /No copedent is called "f10"; known: e9/],
    ["a faulty chart", { ...PART, copedent: { strings: [] } }, /copedent: strings: there are none/],
    [
      "a string that is not there",
      { copedent: "e9", events: [{ start: 0, end: 1, strings: [11], fret: 3 }] },
      /events\[0\]\.strings names string 11/,
    ],
    [
      "a pedal that is not there",
      { copedent: "e9", events: [{ start: 0, end: 1, strings: [5], fret: 3, changes: ["Z"] }] },
      /events\[0\]\.changes: "Z" is no pedal or lever/,
    ],
    [
      "an event that ends before it starts",
      { copedent: "e9", events: [{ start: 2, end: 1, strings: [5], fret: 3 }] },
      /events\[0\] must end after it starts/,
    ],
    [
      "an articulation of another name",
      { copedent: "e9", events: [{ start: 0, end: 1, strings: [5], fret: 3, articulation: "bend" }] },
      /events\[0\]\.articulation must be one of "pick"/,
    ],
  ])("refuses %s in one line, and writes nothing", async (_, request, words) => {
    const nowhere = path.join(folder, "refused.wav");
    const said = { stdout: "", stderr: "" };
    const into = (stream: "stdout" | "stderr") => ({
      write: (text: string) => {
        said[stream] += text;
      },
    });
    const stdin = (async function* () {
      yield typeof request === "string" ? request : JSON.stringify(request);
    })();
    const streams = { stdin, stdout: into("stdout"), stderr: into("stderr") };
    expect(await runRender(["-", "--output", nowhere], streams)).toBe(1);
    const { stdout, stderr } = said;
    expect(stdout).toBe("");
    expect(stderr).toMatch(words);
    expect(stderr.trim().split("\n")).toHaveLength(1);
    await expect(access(nowhere)).rejects.toThrow();
  });

  it("says how it is used where no file to write is named", async () => {
    expect((await runCli("render", "part.json")).stderr).toMatch(/^Usage: render PART\.json -o OUT\.wav/);
  });
});
