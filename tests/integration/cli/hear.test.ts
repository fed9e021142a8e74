import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { encodeWav } from "@/lib/synth/encodeWav";
import { RATE_HZ } from "../../unit/hearing/band";
import { play } from "../../unit/hearing/notes/steelSound";
import { runCli } from "./runCli";

const glide = z.strictObject({
  kind: z.enum(["pedal", "bar", "unsure"]),
  toMidi: z.number(),
  at: z.number(),
  durationSec: z.number().positive(),
});
/** The shape that the command promises. */
const passageSchema = z.strictObject({
  notes: z.array(
    z.strictObject({
      start: z.number(),
      end: z.number(),
      midi: z.number(),
      confidence: z.number().min(0).max(1),
      role: z.enum(["steel", "band"]),
      glide: z.union([glide, z.array(glide).min(2)]).optional(),
    }),
  ),
  words: z.array(z.string()),
});

let folder = "";
let record = "";
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-cli-"));
  record = path.join(folder, "two pairs.wav");
  // B3 and E4: B3 is pulled up to C#4 and let go again; then both strings slide up a whole step.
  const samples = play([
    {
      startSec: 0.5,
      endSec: 2.5,
      midi: 59,
      glides: [
        [1, 0.1, 61],
        [1.8, 0.1, 59],
      ],
    },
    { startSec: 0.5, endSec: 2.5, midi: 64 },
    { startSec: 3, endSec: 5, midi: 59, glides: [[3.6, 0.2, 61]] },
    { startSec: 3, endSec: 5, midi: 64, glides: [[3.6, 0.2, 66]] },
  ]);
  await writeFile(record, encodeWav([samples], RATE_HZ));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

describe("hear", () => {
  it("prints the notes of a passage with how they move, and words for it", async () => {
    const { code, stdout, stderr } = await runCli("hear", record, "--from", "0.2", "--to", "2.9");
    expect(code).toBe(0);
    expect(stdout.trimEnd().split("\n").length).toBe(1);
    const { notes, words } = passageSchema.parse(JSON.parse(stdout));
    const steel = notes.filter(({ role }) => role === "steel");
    expect(steel.map(({ midi }) => Math.round(midi)).sort()).toEqual([59, 64]);
    const moved = steel.find(({ midi }) => Math.round(midi) === 59)!;
    // One glide follows another: a list.
    expect(
      Array.isArray(moved.glide) && moved.glide.map(({ kind, toMidi }) => [kind, Math.round(toMidi)]),
    ).toEqual([
      ["pedal", 61],
      ["pedal", 59],
    ]);
    expect(words).toContain("pairs");
    expect([
      ...new Set(
        stderr
          .trimEnd()
          .split("\n")
          .map((line) => line.split(" ")[0]),
      ),
    ]).toEqual(["decode", "notes"]);
  });

  it("hears to the end where no end is named, times counted from the start of the record", async () => {
    const { notes } = passageSchema.parse(JSON.parse((await runCli("hear", record, "--from", "2.7")).stdout));
    const steel = notes.filter(({ role }) => role === "steel");
    expect(steel).toHaveLength(2);
    for (const note of steel) {
      expect(Math.abs(note.start - 3)).toBeLessThan(0.05);
      expect(note.glide).toMatchObject({ kind: "bar" });
    }
  });

  it.each([
    [["--from", "5", "--to", "4"], /end after it begins/],
    [["--from", "soon"], /end after it begins/],
    [["--from", "60"], /5\.5 s long/],
    [["--loud"], /^Usage: hear FILE/],
  ])("says in one line what is wrong with %j", async (passage, words) => {
    const { code, stdout, stderr } = await runCli("hear", record, ...passage);
    expect(code).toBe(1);
    expect(stdout).toBe("");
    expect(stderr.replace(/^decode 100 %\n/, "")).toMatch(words);
  });
});
