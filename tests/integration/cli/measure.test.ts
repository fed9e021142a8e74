import { createHash, randomUUID } from "node:crypto";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { z } from "zod";
import { labelsFile } from "@/lib/contracts/labels";
import type { CommandContext } from "@/lib/document/commands/act";
import { addNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { readLabels } from "@/lib/document/labels/readLabels";
import { readSong } from "@/lib/document/read/readSong";
import { encodeWav } from "@/lib/synth/encodeWav";
import { RATE_HZ } from "../../unit/hearing/band";
import { heardIn, play } from "../../unit/hearing/notes/steelSound";
import { runCli } from "./runCli";

const found = z.strictObject({ asked: z.number(), found: z.number(), share: z.number().nullable() });
/** The shape that the command promises. */
const measuresSchema = z.strictObject({
  recordSha256: z.string(),
  ear: z.string(),
  goneOver: z.strictObject({ stretches: z.number(), seconds: z.number() }),
  openNotes: z.number(),
  notes: found,
  steel: z.strictObject({
    ...{ precision: z.number(), recall: z.number(), f: z.number() },
    ...{ asked: z.number(), given: z.number(), found: z.number() },
  }),
  pairs: found,
  glides: found.extend({ given: z.number() }),
  pedalOrBar: found,
});

let folder = "";
const at = (name: string) => path.join(folder, name);
let sha256 = "";
let steelCount = 0;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-measure-"));
  // Four pairs, one after another, the lower string of each pulled up a whole step.
  const samples = play(
    [0.5, 2.5, 4.5, 6.5].flatMap((startSec) => [
      {
        startSec,
        endSec: startSec + 1.8,
        midi: 59,
        glides: [[startSec + 0.8, 0.1, 61] as [number, number, number]],
      },
      { startSec, endSec: startSec + 1.8, midi: 64 },
    ]),
  );
  await writeFile(at("pairs.wav"), encodeWav([samples], RATE_HZ));
  sha256 = createHash("sha256")
    .update(await readFile(at("pairs.wav")))
    .digest("hex");

  // A person goes over what was heard: inks all but one, rubs that out, and writes one that nobody hears.
  const doc = new Y.Doc();
  const ctx: CommandContext = { doc, by: "ann", nowMs: 1, newId: randomUUID, origin: "test" };
  const notes = await heardIn(samples);
  const hearing = {
    ...{ version: "ear 1", durationSec: 9, tuningCents: 0, tuningConfidence: 1 },
    grid: {
      ...{ beats: [], tempoBpm: 120, beatsPerBar: 4, division: 2 as const, freeStretches: [] },
      ...{ beatsConfidence: 0.5, barsConfidence: 0.5 },
    },
    ...{ homes: [], chords: [], bass: [], sections: [], notes },
  };
  expect(writeHearing(ctx, hearing, "run 1")).toMatchObject({ ok: true });
  const open = { recordSha256: sha256, durationSec: 9, tuningCents: 0, read: readLabels(doc, null) };
  await writeFile(at("open.json"), JSON.stringify(labelsFile([open], ["note"])));
  await writeFile(at("changes.json"), JSON.stringify(labelsFile([open], ["change"])));
  const pencilled = readSong(doc).notes;
  steelCount = pencilled.length;
  const rubbed = pencilled.findLast(({ glides }) => glides.length === 0)!;
  const kept = pencilled.filter((note) => note !== rubbed);
  expect(
    inkNotes(
      ctx,
      kept.map(({ id }) => id),
    ).ok,
  ).toBe(true);
  rubOutNote(ctx, rubbed.id);
  addNote(ctx, { startSec: 3.4, endSec: 4, midi: 75, glides: [] });
  const song = { ...open, read: readLabels(doc, null) };
  await writeFile(at("labels.json"), JSON.stringify(labelsFile([song], ["note", "change"])));
  const elsewhere = { ...song, recordSha256: "0".repeat(64) };
  await writeFile(at("other.json"), JSON.stringify(labelsFile([elsewhere], ["note"])));
  await writeFile(at("newer.json"), JSON.stringify({ ...labelsFile([song], ["note"]), version: 99 }));
  await writeFile(at("broken.json"), "{");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("measure", () => {
  it("hears a record and scores it against what people settled, where they have gone over it", async () => {
    const { code, stdout, stderr } = await runCli("measure", at("labels.json"), at("pairs.wav"));
    expect([code, stdout.trimEnd().split("\n").length]).toEqual([0, 1]);
    const measures = measuresSchema.parse(JSON.parse(stdout));
    expect(measures.recordSha256).toBe(sha256);
    expect(measures.goneOver.stretches).toBe(1);
    expect(measures.openNotes).toBe(0);
    // The ear hears what it heard: all of it is asked for but the one that was rubbed out, and one more.
    expect(steelCount).toBeGreaterThanOrEqual(8);
    expect(measures.steel).toMatchObject({ asked: steelCount, given: steelCount, found: steelCount - 1 });
    expect(measures.notes).toMatchObject({ asked: steelCount, found: steelCount - 1 });
    expect(measures.pairs.asked).toBeGreaterThanOrEqual(3);
    expect(measures.pairs.share).toBe(1);
    expect(measures.glides.asked).toBeGreaterThanOrEqual(3);
    expect(measures.glides.share).toBe(1);
    const steps = stderr.trimEnd().split("\n");
    expect([...new Set(steps.map((line) => line.split(" ")[0]))]).toEqual(["decode", "notes"]);
  });

  it.each([
    [
      "labels of another record",
      ["other.json", "pairs.wav"],
      /does not tell of this recording, whose SHA-256 is/,
    ],
    ["labels without notes", ["changes.json", "pairs.wav"], /holds no labels of notes/],
    ["labels of which nothing is settled", ["open.json", "pairs.wav"], /no stretch .* has been gone over/],
    ["labels of a newer version", ["newer.json", "pairs.wav"], /another version than this Liftbook reads/],
    ["what is no JSON", ["broken.json", "pairs.wav"], /is not JSON/],
    ["no labels", ["nowhere.json", "pairs.wav"], /there is no such file/],
    ["no record", ["labels.json", "nowhere.wav"], /there is no such file/],
  ])("says in one line what is wrong with %s", async (_, files, words) => {
    const { code, stdout, stderr } = await runCli("measure", ...files.map(at));
    expect([code, stdout]).toEqual([1, ""]);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(stderr).toMatch(words);
  });

  it("says how it is used", async () => {
    const { code, stderr } = await runCli("measure", at("labels.json"));
    expect(code).toBe(1);
    expect(stderr).toMatch(/^Usage: measure LABELS FILE/);
  });
});
