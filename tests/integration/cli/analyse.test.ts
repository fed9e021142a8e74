import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { HEARING_STEPS } from "@/lib/hearing/Hearing";
import { parseHarte } from "@/lib/theory/harte";
import { runCli } from "./runCli";

/** The shape that the command promises. */
const certainty = z.number().min(0).max(1);
const span = z.strictObject({ start: z.number(), end: z.number(), confidence: certainty });
const mode = z.enum(["major", "minor"]);
const analysisSchema = z.strictObject({
  tuningCents: z.number().min(-50).max(50),
  key: z.strictObject({ tonic: z.string(), mode, confidence: certainty }),
  tempo: z.number().positive(),
  meter: z.number().int().positive(),
  beats: z.array(z.number()),
  downbeats: z.array(z.number()),
  chords: z.array(span.extend({ label: z.string() })),
  homes: z.array(span.extend({ tonic: z.string(), mode })).min(1),
  bass: z.array(span.extend({ midi: z.number().int() })),
  sections: z.array(span.extend({ label: z.string(), transposed: z.number().int() })),
});

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-cli-"));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

describe("analyse", () => {
  it("prints one JSON object of what it hears, and progress with the names of the steps beside it", async () => {
    const { code, stdout, stderr } = await runCli("analyse", "tests/fixtures/quality/own-3.ogg");
    expect(code).toBe(0);
    expect(stdout.trimEnd().split("\n").length).toBe(1);
    const heard = analysisSchema.parse(JSON.parse(stdout));
    // As the song was made: 23 cents flat, B flat major, four beats at 92 a minute.
    expect(Math.abs(heard.tuningCents + 23)).toBeLessThan(5);
    expect(heard.key).toMatchObject({ tonic: "Bb", mode: "major" });
    expect(Math.abs(heard.tempo / 92 - 1)).toBeLessThan(0.04);
    expect(heard.meter).toBe(4);
    expect(heard.downbeats.every((time) => heard.beats.includes(time))).toBe(true);
    expect(heard.beats).toEqual([...heard.beats].sort((a, b) => a - b));
    for (const { label } of heard.chords) expect(() => parseHarte(label)).not.toThrow();
    for (const [i, chord] of heard.chords.entries()) {
      expect(chord.end).toBeGreaterThan(chord.start);
      expect(chord.start).toBeGreaterThanOrEqual(heard.chords[i - 1]?.end ?? 0);
    }
    for (const [i, note] of heard.bass.entries()) {
      expect(note.end).toBeGreaterThan(note.start);
      expect(note.start).toBeGreaterThanOrEqual(heard.bass[i - 1]?.end ?? 0);
    }
    expect(heard.bass.length).toBeGreaterThan(4);
    expect(heard.sections[0]).toMatchObject({ start: 0, label: "A", transposed: 0 });
    for (const [i, section] of heard.sections.entries())
      if (i > 0) expect(section.start).toBe(heard.sections[i - 1]!.end);
    const steps = [...new Set(stderr.split("\n").map((line) => line.split(" ")[0]!))].filter(
      (step) => step !== "",
    );
    expect(steps).toEqual(["decode", ...HEARING_STEPS]);
  });

  it("says in one line what is wrong with a bad file, and prints nothing", async () => {
    const ogg = await readFile("tests/fixtures/quality/own-3.ogg");
    const cases: [string, Uint8Array | null, RegExp][] = [
      ["missing.wav", null, /there is no such file/],
      ["empty.wav", new Uint8Array(0), /is empty/],
      ["notes.mp3", Buffer.from("To be played slowly.\n".repeat(50)), /no sound that can be read/],
      ["cut.ogg", ogg.subarray(0, ogg.length / 2), /cut short/],
    ];
    for (const [name, bytes, words] of cases) {
      const file = path.join(folder, name);
      if (bytes) await writeFile(file, bytes);
      const { code, stdout, stderr } = await runCli("analyse", file);
      expect(code).toBe(1);
      expect(stdout).toBe("");
      expect(stderr).toMatch(words);
      expect(stderr.trimEnd().split("\n").length, stderr).toBe(1);
      expect(stderr).toContain(name);
    }
  });

  it("tells how it is used when the file is not named", async () => {
    const { code, stderr } = await runCli("analyse");
    expect(code).toBe(1);
    expect(stderr).toMatch(/^Usage: analyse FILE/);
  });
});

describe("the command line", () => {
  it("names its commands when asked for one that it does not have", async () => {
    const { code, stdout, stderr } = await runCli("sing");
    expect(code).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toMatch(/no command "sing"[\s\S]*analyse FILE[\s\S]*place FILE/);
  });

  it("hands what follows to the command", async () => {
    const file = path.join(folder, "part.json");
    await writeFile(file, JSON.stringify({ copedent: "e9", events: [{ start: 0, end: 1, notes: [64] }] }));
    const { code, stdout } = await runCli("place", file);
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ events: [{ start: 0 }] });
  });
});
