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
    why?: string;
    candidates: {
      fret: number;
      frets?: number[];
      changes: string[];
      strings: number[];
      notes: number[];
      cost: number;
      reason: string;
      terms: Record<string, number>;
    }[];
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

  it("says of every candidate what to do, and what makes up its cost", async () => {
    const asked = { ...part, key: "G", events: part.events.map((event) => ({ ...event, chord: "G:maj" })) };
    const { out } = await run(["-"], JSON.stringify(asked));
    const { events } = JSON.parse(out) as Answer;
    for (const { cost, terms, reason } of events.flatMap(({ candidates }) => candidates)) {
      expect(Object.values(terms).reduce((sum, each) => sum + each, 0)).toBeCloseTo(cost, 9);
      expect(reason).toMatch(/^[A-Z].*\.$/);
    }
    expect(events[0]!.candidates[events[0]!.chosen!]!.terms).toHaveProperty("chord in force");
    expect(events[1]!.why).toBe("This note does not lie on this neck.");
  });

  it("takes a chart of its own", async () => {
    // The chart of the request's own definition: A raises strings 5 and 10 by a whole step.
    const copedent = {
      strings: [66, 63, 68, 64, 59, 56, 54, 52, 50, 47],
      frets: 12,
      changes: [{ id: "A", slot: "P1", moves: { 5: 2, 10: 2 } }],
    };
    const events = [{ start: 0, end: 1, notes: [64] }];
    const { out, err } = await run(["-"], JSON.stringify({ copedent, events }));
    expect(err).toBe("");
    const places = (JSON.parse(out) as Answer).events[0]!.candidates.map(
      ({ fret, changes, strings }) => `${fret}${changes.join("")} on ${strings.join("-")}`,
    );
    // By hand: open + fret, and with A on strings 5 and 10; frets 0 to 12.
    expect(places).toEqual(["0 on 4", "1 on 2", "3A on 5", "5 on 5", "8 on 6", "10 on 7", "12 on 8"]);
  });

  it("tells the fret of each string where fingers stop them", async () => {
    const asked = { copedent: "guitar", events: [{ start: 0, end: 1, notes: [60, 64, 67] }] };
    const { out } = await run(["-"], JSON.stringify(asked));
    const { candidates } = (JSON.parse(out) as Answer).events[0]!;
    // C4, E4 and G4 stand a major and a minor third apart, strings 1 to 3 a fourth and a major third: no one fret has all.
    expect(candidates.length).toBeGreaterThan(0);
    expect(candidates.some(({ frets }) => frets && new Set(frets).size > 1)).toBe(true);
  });

  it("keeps locks of the part and of events, says which leaves nothing, and places the others", async () => {
    const asked = {
      copedent: "e9",
      locks: { frets: [3, 8], grip: [3, 4, 5, 6, 8, 10] },
      events: [
        { start: 0, end: 1, notes: [62, 71], locks: { string: { 71: 3 } } },
        { start: 1, end: 2, notes: [64, 72], glide: "oblique", locks: { fret: 3, changes: ["A", "B"] } },
        { start: 2, end: 3, notes: [64, 72], locks: { pedals: "up", fret: 3 } },
        { start: 3, end: 4, notes: [67], locks: { place: { fret: 8, strings: [5] } } },
      ],
    };
    const { out, err } = await run(["-"], JSON.stringify(asked));
    expect(err).toBe("");
    const { events } = JSON.parse(out) as Answer;
    const chosen = events.map(({ chosen: index, candidates }) => {
      const place = candidates[index ?? -1];
      return place ? `${place.fret}${place.changes.join("")} on ${place.strings.join("-")}` : null;
    });
    expect(chosen).toEqual(["3 on 5-3", "3AB on 5-3", null, "8 on 5"]);
    expect(events[2]!.why).toBe(
      "Locked: the bar at fret 3 and pedals up. Together they leave no place for these notes.",
    );
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
    ["an unknown copedent", '{"copedent": "z9", "events": []}', /"z9"; known: e9, /],
    [
      "no events",
      '{"copedent": "e9", "events": []}',
      /^Cannot place this: events must hold at least one event\./,
    ],
    [
      "a chart without strings",
      '{"copedent": {"strings": []}, "events": []}',
      /^Cannot place this: copedent: strings: /,
    ],
    [
      "a lock that there is not",
      JSON.stringify({ copedent: "e9", locks: { fret: 3 }, events: [] }),
      /locks holds no lock called "fret": there are frets/,
    ],
    [
      "a lever that there is not",
      one({ start: 0, end: 1, notes: [60], locks: { changes: ["Q"] } }),
      /events\[0\]\.locks\.changes: "Q" is no pedal/,
    ],
    [
      "a string that there is not",
      one({ start: 0, end: 1, notes: [60], locks: { string: { 60: 11 } } }),
      /names string 11/,
    ],
    [
      "frets the wrong way round",
      one({ start: 0, end: 1, notes: [60], locks: { frets: [8, 3] } }),
      /lower fret first/,
    ],
    ["a chord that is none", one({ start: 0, end: 1, notes: [60], chord: "what" }), /events\[0\]\.chord: /],
    ["a key that is none", '{"copedent": "e9", "key": "H", "events": []}', /key must be as in "G"/],
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
