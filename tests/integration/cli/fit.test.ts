import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { encodeWav } from "@/lib/synth/encodeWav";
import { RATE_HZ } from "../../unit/hearing/band";
import { play } from "../../unit/hearing/notes/steelSound";
import { runCli } from "./runCli";

const fit = z.number().min(0).max(1);
/** The shape that the command promises. */
const notesSchema = z.strictObject({
  fit,
  perNote: z.array(z.strictObject({ midi: z.number(), fit, offCents: z.number() })),
  nearest: z.array(z.strictObject({ notes: z.array(z.number()).min(1), fit, says: z.string() })).min(1),
});
const chordSchema = z.strictObject({
  fit,
  nearest: z.array(z.strictObject({ chord: z.string(), fit, says: z.string() })).min(1),
});

let folder = "";
let record = "";
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-cli-"));
  record = path.join(folder, "a pair.wav");
  // B3 and E4 as a steel plays them.
  const samples = play([
    { startSec: 0.5, endSec: 2.5, midi: 59 },
    { startSec: 0.5, endSec: 2.5, midi: 64 },
  ]);
  await writeFile(record, encodeWav([samples], RATE_HZ));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const ask = (...rest: string[]) => runCli("fit", record, "--from", "0.5", "--to", "2.3", ...rest);

describe("fit", () => {
  it("prints how far notes agree on one line, each for itself and beside every near miss, best first", async () => {
    const { code, stdout, stderr } = await ask("--notes", "59,64");
    expect(code).toBe(0);
    expect(stdout.trimEnd().split("\n")).toHaveLength(1);
    const told = notesSchema.parse(JSON.parse(stdout));
    expect(told.perNote.map(({ midi }) => midi)).toEqual([59, 64]);
    const reads = told.nearest.map((near) => near.fit);
    expect(reads).toEqual([...reads].sort((a, b) => b - a));
    expect(told.fit).toBeGreaterThan(reads[0]!);
    const lower = told.nearest.find(({ notes }) => notes.join() === "58,63")!;
    expect(lower.says).toMatch(/^all a half step lower reads 0\.\d\d$/);
    expect(stderr).toBe("decode 100 %\nfit 100 %\n");
  });

  it("takes a chord or a key as well", async () => {
    const chord = chordSchema.parse(JSON.parse((await ask("--chord", "E:maj")).stdout));
    expect(chord.nearest.map((near) => near.chord)).toContain("E:min");
    const key = JSON.parse((await ask("--key", "E major")).stdout);
    expect(key.nearest.map((near: { key: string }) => near.key)).toContain("C# minor");
  });

  it.each([
    [["--notes", "59,sixty"], /^"59,sixty" are no notes: write MIDI numbers from 28 \(E1\) to 96 \(C7\)/],
    [["--chord", "H:maj"], /^"H:maj" is not a chord label/],
    [["--key", "G dorian"], /^"G dorian" is no key/],
    [[], /^Give one guess/],
    [["--notes", "60", "--from", "60", "--to", "61"], /3\.0 s long/],
  ])("says in one line what is wrong with %j", async (given, words) => {
    const { code, stdout, stderr } = await ask(...given);
    expect(code).toBe(1);
    expect(stdout).toBe("");
    expect(stderr.trimEnd().split("\n").at(-1)).toMatch(
      words.source.startsWith("3") ? new RegExp(`could not be analysed: .*${words.source}`) : words,
    );
  });
});
