import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Readable } from "node:stream";
import { describe, expect, it } from "vitest";
import { runPlace } from "@/lib/cli/place";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";

interface Answer {
  total: number;
  events: {
    start: number;
    chosen: number | null;
    candidates: { fret: number; changes: string[]; strings: number[]; notes: number[]; cost: number }[];
  }[];
}

async function run(args: string[], input = "") {
  let out = "";
  let err = "";
  const status = await runPlace(args, {
    stdin: Readable.from(input === "" ? [] : [Buffer.from(input)]),
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
  });
  return { status, out, err };
}

const part = {
  copedent: "e9",
  events: [
    { start: 0, end: 1, notes: [62, 71] },
    { start: 1, end: 1.5, notes: [20] },
    { start: 1.5, end: 2, notes: [60, 64, 67] },
    { start: 2, end: 3, notes: [74] },
  ],
};

describe("the place command", () => {
  it("prints every candidate, the chosen one being the cheapest", async () => {
    const { status, out, err } = await run(["-"], JSON.stringify(part));
    expect([status, err]).toEqual([0, ""]);
    const answer = JSON.parse(out) as Answer;
    expect(answer.events.map(({ start }) => start)).toEqual([0, 1, 1.5, 2]);
    answer.events.forEach(({ chosen, candidates }, at) => {
      if (at === 1) {
        expect([chosen, candidates]).toEqual([null, []]);
        return;
      }
      for (const { fret, changes, strings, notes } of candidates) {
        expect(notes).toEqual(part.events[at]?.notes);
        expect(strings.map((string) => effectiveMidi(E9, string, fret, changes))).toEqual(notes);
      }
      expect(candidates[chosen!]?.cost).toBe(Math.min(...candidates.map(({ cost }) => cost)));
      expect(candidates[chosen!]?.cost).toBe(answer.total);
      expect(Math.max(...candidates.map(({ fret }) => fret))).toBeLessThanOrEqual(24);
    });
    expect(answer.events[3]?.candidates.some(({ fret }) => fret > 15)).toBe(true);
  });

  it("reads a file as it reads standard input", async () => {
    const folder = await mkdtemp(join(tmpdir(), "place-"));
    try {
      const file = join(folder, "part.json");
      await writeFile(file, JSON.stringify(part));
      expect(await run([file])).toEqual(await run(["-"], JSON.stringify(part)));
    } finally {
      await rm(folder, { recursive: true });
    }
  });

  const one = (event: unknown) => JSON.stringify({ copedent: "e9", events: [event] });
  it.each([
    ["nothing", "", /not JSON/],
    ["broken JSON", '{"copedent": "e9",\n', /not JSON/],
    ["a list", "[]", /one JSON object/],
    ["no copedent", '{"events": []}', /^Cannot place this: copedent must be the name/],
    ["an unknown copedent", '{"copedent": "z9", "events": []}', /"z9"; known: e9/],
    ["no events", '{"copedent": "e9"}', /events must be a list/],
    [
      "half a note",
      one({ start: 0, end: 1, notes: [60.5] }),
      /events\[0\]\.notes\[0\] must be a whole MIDI number/,
    ],
    ["a note by name", one({ start: 0, end: 1, notes: ["C4"] }), /events\[0\]\.notes\[0\]/],
    ["a note beyond MIDI", one({ start: 0, end: 1, notes: [128] }), /not be above 127/],
    ["no notes", one({ start: 0, end: 1, notes: [] }), /at least one note/],
    ["no time", one({ notes: [60] }), /events\[0\]\.start must be a number of seconds/],
    ["time backwards", one({ start: 2, end: 1, notes: [60] }), /must not end before it starts/],
  ])("answers %s with one clear line", async (_, input, message) => {
    const { status, out, err } = await run(["-"], input);
    expect(status).not.toBe(0);
    expect(out).toBe("");
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain("\n");
  });

  it("says so when it cannot read, or is not told what to read", async () => {
    expect((await run(["/nowhere/part.json"])).err).toMatch(/^Could not read \/nowhere\/part.json: /);
    expect((await run([])).err).toMatch(/^Usage: place/);
    expect((await run(["a", "b"])).status).not.toBe(0);
  });
});
