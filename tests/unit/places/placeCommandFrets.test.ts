import { Readable } from "node:stream";
import { describe, expect, it } from "vitest";
import { runPlace } from "@/lib/cli/place";
import { LAP_C6 } from "../../fixtures/fretted/necks";

interface Candidate {
  fret: number;
  frets?: number[];
  strings: number[];
  notes: number[];
  cost: number;
  reason: string;
  terms: Record<string, number>;
}

async function place(request: object) {
  let out = "";
  let err = "";
  const status = await runPlace(["-"], {
    stdin: Readable.from([Buffer.from(JSON.stringify(request))]),
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
  });
  return {
    status,
    err,
    events: out === "" ? [] : (JSON.parse(out).events as { chosen: number; candidates: Candidate[] }[]),
  };
}

const lap = { strings: LAP_C6.strings.map(({ openMidi }) => openMidi), frets: 24, changes: [] };
// A major third on two neighbours a minor third apart, C and A: 5 and 4 (leylines.no-ip.org t=367418).
const events = [{ start: 0, end: 1, notes: [65, 61] }];

describe("the place command, strings at frets of their own", () => {
  it("slants the bar only where it is asked to, and says so", async () => {
    const plain = await place({ copedent: lap, events });
    expect(plain.events[0]!.candidates.filter(({ frets }) => frets)).toEqual([]);
    const asked = await place({ copedent: lap, events, slants: true });
    const slant = asked.events[0]!.candidates.find(({ frets }) => frets?.join() === "5,4");
    expect(slant).toMatchObject({ fret: 4, strings: [2, 3], notes: [65, 61] });
    expect(slant!.reason).toContain("Slant the bar forward, 5 on string 2 and 4 on string 3");
    expect(slant!.terms.slant).toBeGreaterThan(0);
    const sum = Object.values(slant!.terms).reduce((total, cost) => total + cost, 0);
    expect(sum).toBeCloseTo(slant!.cost, 6);
  });

  it("locks a slanted place, and refuses one with a fret too few", async () => {
    const locks = { place: { fret: 4, frets: [5, 4], strings: [2, 3] } };
    const locked = await place({ copedent: lap, slants: true, events: [{ ...events[0], locks }] });
    expect(locked.events[0]!.candidates.map(({ frets }) => frets)).toEqual([[5, 4]]);
    const short = { place: { ...locks.place, frets: [5] } };
    const refused = await place({ copedent: lap, slants: true, events: [{ ...events[0], locks: short }] });
    expect(refused).toMatchObject({
      status: 1,
      err: "Cannot place this: events[0].locks.place must have one of frets for each of its strings.\n",
    });
    expect((await place({ copedent: lap, slants: "yes", events })).err).toBe(
      "Cannot place this: slants must be true or false.\n",
    );
  });

  it("places for fingers on an instrument that they stop", async () => {
    // An open C chord (common practice, no source), low to high.
    const chord = [{ start: 0, end: 1, notes: [48, 52, 55, 60, 64] }];
    const { events: placed } = await place({ copedent: "guitar", events: chord });
    const { chosen, candidates } = placed[0]!;
    expect(candidates[chosen]).toMatchObject({ fret: 1, frets: [3, 2, 0, 1, 0], strings: [5, 4, 3, 2, 1] });
    expect(candidates[chosen]!.reason).toMatch(/^Index at 1/);
  });
});
