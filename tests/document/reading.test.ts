import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { readHomes, readOne } from "@/lib/document/read/readHomes";
import { readPart } from "@/lib/document/read/readPart";
import { readSong } from "@/lib/document/read/readSong";
import { readStretches } from "@/lib/document/read/readStretches";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { ChangeRecord, HomeRecord, PartRecord, RecordBase } from "@/lib/document/records/records";
import { settleFrets } from "@/lib/instrument/frets";
import { expectValid } from "./validSong";

/** Times on a coarse raster, so that edges often meet, with some a few milliseconds off. */
const timeSec = fc
  .tuple(fc.integer({ min: 0, max: 20 }), fc.constantFrom(0, 0, 0, 0.005, 0.012, 0.019, 0.02))
  .map(([step, off]) => step / 4 + off);
const stretch = fc
  .tuple(timeSec, timeSec)
  .map(([a, b]) => ({ startSec: Math.min(a, b), endSec: Math.max(a, b, Math.min(a, b) + 0.02) }));
const base = fc.record({
  mark: fc.constantFrom("pencil" as const, "ink" as const),
  editedAtMs: fc.integer({ min: 1, max: 3 }),
});

function records<T>(fields: fc.Arbitrary<T>): fc.Arbitrary<(RecordBase & T)[]> {
  return fc.array(fc.tuple(base, fields), { maxLength: 12 }).map((list) =>
    list.map(([{ mark, editedAtMs }, each], index) => ({
      id: `r${index}`,
      mark,
      confidence: null,
      madeBy: "ann",
      madeAtMs: 1,
      editedBy: "ann",
      editedAtMs,
      ...each,
    })),
  );
}
const changes: fc.Arbitrary<ChangeRecord[]> = records(
  stretch.map((each) => ({ ...each, label: "G:maj", guesses: [] })),
);
const homes: fc.Arbitrary<HomeRecord[]> = records(
  timeSec.map((startSec) => ({ startSec, tonic: "G", mode: "major" as const, guesses: [] })),
);
const part: fc.Arbitrary<PartRecord[]> = records(
  fc
    .tuple(
      stretch,
      fc.uniqueArray(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 3 }),
      fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 3, maxLength: 3 }),
      fc.constantFrom("part", "part", "other"),
    )
    .map(([each, strings, frets, id]) => ({
      ...each,
      part: id,
      strings: strings.sort((a, b) => a - b),
      ...settleFrets(frets.slice(0, strings.length)),
      changes: [],
      articulation: "pick" as const,
      techniques: [],
    })),
);
const shuffled = <T>(list: fc.Arbitrary<T[]>) =>
  list.chain((each) =>
    fc.tuple(
      fc.constant(each),
      fc.shuffledSubarray(each, { minLength: each.length, maxLength: each.length }),
    ),
  );
const empty = readSong(new Y.Doc());
const valid = (song: Partial<SongSnapshot>) => expectValid({ ...empty, ...song });

/** The rule as the spec page words it: the last of the records once they are sorted by it. */
function winnerAt(all: readonly ChangeRecord[], atSec: number): string | undefined {
  const key = ({ mark, startSec, editedAtMs, id }: ChangeRecord) =>
    [mark === "ink" ? "1" : "0", startSec.toFixed(6).padStart(12, "0"), `${editedAtMs}`, id].join("|");
  return all
    .filter((each) => each.startSec <= atSec && atSec < each.endSec)
    .sort((a, b) => (key(a) < key(b) ? -1 : 1))
    .at(-1)?.id;
}

describe("reading changes", () => {
  it("D11: any records give a valid score, the same in any order", () => {
    fc.assert(
      fc.property(shuffled(changes), ([all, again]) => {
        const shown = readStretches(all);
        valid({ changes: shown });
        expect(readStretches(again)).toEqual(shown);
      }),
    );
  });

  it("D11: at every instant of a stretch the winner of the rule is shown; only stretches below 20 ms are missing", () => {
    fc.assert(
      fc.property(changes, (all) => {
        const shown = readStretches(all);
        const edges = [...new Set(all.flatMap((each) => [each.startSec, each.endSec]))].sort((a, b) => a - b);
        const wins = edges.slice(0, -1).map((startSec, index) => {
          const endSec = edges[index + 1]!;
          return { startSec, endSec, id: winnerAt(all, (startSec + endSec) / 2) };
        });
        for (const [index, { startSec, endSec, id }] of wins.entries()) {
          const atSec = (startSec + endSec) / 2;
          const at = shown.find((each) => each.startSec <= atSec && atSec < each.endSec);
          if (at !== undefined || id === undefined) expect(at?.id).toBe(id);
          else {
            let [from, to] = [index, index];
            while (wins[from - 1]?.id === id) from--;
            while (wins[to + 1]?.id === id) to++;
            expect(wins[to]!.endSec - wins[from]!.startSec).toBeLessThan(0.02);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  const record = (id: string, startSec: number, endSec: number, changed: Partial<ChangeRecord> = {}) => ({
    id,
    startSec,
    endSec,
    label: "G:maj",
    guesses: [],
    mark: "ink" as const,
    confidence: null,
    madeBy: "ann",
    madeAtMs: 1,
    editedBy: "ann",
    editedAtMs: 1,
    ...changed,
  });
  const seen = (...all: ChangeRecord[]) =>
    readStretches(all).map(({ id, startSec, endSec, stretch: number }) => [id, startSec, endSec, number]);

  it("D11: worked examples, one a clause of the rule", () => {
    const ink = record("a", 0, 4);
    expect(seen(ink, record("b", 1, 5, { mark: "pencil", editedAtMs: 9 }))).toEqual([
      ["a", 0, 4, 0],
      ["b", 4, 5, 0],
    ]);
    expect(seen(ink, record("b", 1, 2))).toEqual([
      ["a", 0, 1, 0],
      ["b", 1, 2, 0],
      ["a", 2, 4, 1],
    ]);
    expect(seen(record("a", 0, 4, { editedAtMs: 2 }), record("b", 0, 4))).toEqual([["a", 0, 4, 0]]);
    expect(seen(ink, record("b", 0, 4))).toEqual([["b", 0, 4, 0]]);
    expect(seen(ink, record("b", 0.015, 5))).toEqual([["b", 0.015, 5, 0]]);
  });
});

describe("reading homes, tuning and grid", () => {
  it("D12: any homes give a valid list, the same in any order, none beaten by one beside it that is shown", () => {
    fc.assert(
      fc.property(shuffled(homes), ([all, again]) => {
        const shown = readHomes(all);
        valid({ homes: shown });
        expect(readHomes(again)).toEqual(shown);
        for (const hidden of all.filter((each) => !shown.includes(each))) {
          const beside = shown.filter((each) => Math.abs(each.startSec - hidden.startSec) < 0.02);
          expect(beside.some((each) => each.mark === "ink" || hidden.mark === "pencil")).toBe(true);
        }
      }),
    );
  });

  it("D13: ink before pencil, then the later edit, then the higher id, in any order", () => {
    fc.assert(
      fc.property(shuffled(homes), ([all, again]) => {
        const one = readOne(all);
        expect(readOne(again)).toBe(one);
        const score = (each: RecordBase) => (each.mark === "ink" ? 10 : 0) + each.editedAtMs;
        for (const each of all) expect(score(one!)).toBeGreaterThanOrEqual(score(each));
      }),
    );
  });
});

describe("reading the part", () => {
  it("D14: any events give one event at a time on each string, the same in any order", () => {
    fc.assert(
      fc.property(shuffled(part), ([all, again]) => {
        const shown = readPart(all);
        const parts = ["part", "other"].map((id) => ({
          ...empty.parts[0]!,
          ...{ id, events: shown.filter((event) => event.part === id) },
        }));
        valid({ parts, part: parts[0]!.events });
        expect(readPart(again)).toEqual(shown);
        for (const event of shown) {
          const written = all.find((each) => each.id === event.id)!;
          expect(written.strings).toEqual(expect.arrayContaining(event.strings));
          expect(event.endSec).toBeLessThanOrEqual(written.endSec);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("D14: a string of ink is lost only to ink that begins with it", () => {
    fc.assert(
      fc.property(part, (all) => {
        const shown = readPart(all);
        for (const each of all.filter(({ mark }) => mark === "ink")) {
          const kept = shown.find(({ id }) => id === each.id)?.strings ?? [];
          for (const string of each.strings.filter((one) => !kept.includes(one))) {
            const rivals = all.filter(
              (other) =>
                other.id !== each.id &&
                other.mark === "ink" &&
                other.part === each.part &&
                other.strings.includes(string) &&
                Math.abs(other.startSec - each.startSec) < 0.02,
            );
            expect(rivals.length).toBeGreaterThan(0);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});
