import { describe, expect, it } from "vitest";
import { barBeatText } from "@/lib/client/axis/barBeat";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import { bandBeside, inTime, isOfRecord, isOfSteel } from "@/lib/client/song/heardList";
import { PAGE_ROWS, pageAt, pageOf } from "@/lib/client/song/notePages";
import { partAround } from "@/lib/client/song/partAround";
import type { ShownNote, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { NoteRole } from "@/lib/document/records/records";
import type { HeardNote } from "@/lib/hearing/Hearing";

const STAMP = { madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0, confidence: null };
const heard = (startSec: number, midi: number): HeardNote => ({
  ...{ startSec, endSec: startSec + 1, midi, confidence: 0.9, steel: 0.1, glides: [] },
});
const shown = (startSec: number, midi: number, role: NoteRole | null = null): ShownNote => ({
  ...STAMP,
  ...{
    id: `${startSec}/${midi}`,
    mark: "ink",
    startSec,
    endSec: startSec + 1,
    midi,
    glides: [],
    steel: null,
    role,
  },
});
const GIVEN: NoteRole = { whose: "band", by: "ann", atMs: 1 };

describe("the band's notes beside the song's", () => {
  const song = { notes: [shown(1, 60), shown(3, 64)], bandNotes: [shown(5, 43, GIVEN)] };
  const beside = (...notes: HeardNote[]) =>
    bandBeside(notes, song).map(({ startSec, midi }) => [startSec, midi]);

  it("leave out those that stand in the song, given to the steel or settled as the band's", () => {
    expect(beside(heard(1.02, 60.3), heard(2, 40), heard(5, 43), heard(5, 50))).toEqual([
      [2, 40],
      [5, 50],
    ]);
  });

  // The distances at which transcriptions are scored: Raffel et al., mir_eval, ISMIR 2014 (50 ms, 50 cents).
  it("are others where they begin 50 ms away or lie 50 cents off", () => {
    expect(beside(heard(0.949, 60), heard(1, 60.51), heard(1.051, 60), heard(3, 64.5))).toEqual([
      [0.949, 60],
      [1, 60.51],
      [1.051, 60],
    ]);
  });

  it("are one list with the song's, each known for what it is, each named once", () => {
    const list = inTime(inTime(song.notes, song.bandNotes), bandBeside([heard(2, 40), heard(3, 50)], song));
    expect(list.map(({ startSec }) => startSec)).toEqual([1, 2, 3, 3, 5]);
    expect(list.map(isOfSteel)).toEqual([true, false, false, true, false]);
    expect(list.map(isOfRecord)).toEqual([true, false, false, true, true]);
    expect(new Set(list.map(({ id }) => id)).size).toBe(5);
  });
});

describe("pages of a long list", () => {
  const list = Array.from({ length: 2 * PAGE_ROWS + 5 }, (_, index) => ({
    startSec: index,
    endSec: index + 0.5,
  }));

  it("show every row once, and end at the ends", () => {
    const pages = [0, 1, 2].map((page) => pageOf(list, page));
    expect(pages.flatMap(({ rows }) => rows)).toEqual(list);
    expect(pages.map(({ first, count }) => [first, count])).toEqual([
      [0, 3],
      [PAGE_ROWS, 3],
      [2 * PAGE_ROWS, 3],
    ]);
    expect(pageOf(list, 9).page).toBe(2);
    expect(pageOf(list, -1).page).toBe(0);
    expect(pageOf([], 3)).toEqual({ page: 0, first: 0, rows: [], count: 1 });
  });

  it("open where one looks: at what sounds there or comes next", () => {
    expect([0, PAGE_ROWS - 0.6, PAGE_ROWS + 0.2, 1000].map((timeSec) => pageAt(list, timeSec))).toEqual([
      0, 0, 1, 2,
    ]);
    expect(pageAt([], 5)).toBe(0);
  });
});

describe("bar and beat in figures", () => {
  const grid = makeSongGrid(
    { beatsSec: [1, 2, 3, 4, 5, 6, 7], inBar: [4, 1, 2, 3, 4, 1, 2], beatsPerBar: 4 },
    8,
  )!;
  it("count bars from the first downbeat, and beats to a quarter", () => {
    const at = [1, 2, 3.5, 4.26, 4.8, 5.95, 6].map((sec) => barBeatText(grid, sec));
    expect(at).toEqual(["0.4", "1.1", "1.2½", "1.3¼", "1.3¾", "2.1", "2.1"]);
  });
});

describe("the part about a passage", () => {
  const event = (id: string, startSec: number, mark: "pencil" | "ink", madeBy = "ann"): ShownPart => ({
    ...STAMP,
    ...{ id, mark, madeBy, startSec, endSec: startSec + 1, strings: [5], fret: 3, changes: [] },
    ...{ part: "part", articulation: "pick" as const, writtenEndSec: startSec + 1, writtenStrings: [5] },
  });

  it("gives way where it is one's own pencil, and stays where it is ink or another's", () => {
    const part = [
      event("long ago", 0, "ink"),
      event("before", 8, "pencil"),
      event("mine", 10, "pencil"),
      event("inked", 11, "ink"),
      event("another's", 12, "pencil", "ben"),
      event("after", 14, "ink"),
      event("later", 15, "ink"),
    ];
    const { instead, kept } = partAround(part, { startSec: 10, endSec: 13 }, "ann");
    expect(instead).toEqual(["mine"]);
    expect(kept.map(({ id }) => id)).toEqual(["before", "inked", "another's", "after"]);
  });

  it("says nothing of the hands where its neighbours lie long before and after", () => {
    const part = [event("before", 0, "ink"), event("after", 40, "ink")];
    expect(partAround(part, { startSec: 20, endSec: 22 }, "ann")).toEqual({ instead: [], kept: [] });
  });
});
