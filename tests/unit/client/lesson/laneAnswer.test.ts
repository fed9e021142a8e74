import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { guessesOf } from "@/lib/client/lesson/guessHistory";
import { laneAnswer } from "@/lib/client/lesson/laneAnswer";
import { setChangeLabel } from "@/lib/document/commands/changes";
import { setCovers } from "@/lib/document/commands/covers";
import { addGuess } from "@/lib/document/commands/guesses";
import { addPartEvent } from "@/lib/document/commands/part";
import { addPart } from "@/lib/document/commands/parts";
import { coverSong } from "@/lib/document/read/coverSong";
import { readSong } from "@/lib/document/read/readSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { GUESS_LANES, type GuessLane, type LaneValue } from "@/lib/lesson/GuessValue";
import { done, hear, replica } from "../../../document/replicas";

/** G C D7 G, two seconds each, with a pair that is heard at 1 s and an event of the part at 2 s; all is covered. */
function lesson() {
  const ann = replica("ann", 1);
  hear(ann);
  const place = { strings: [5, 6], fret: 3, changes: ["A"], articulation: "pick" as const };
  done(addPartEvent(ann.ctx, { ...place, startSec: 2, endSec: 3 }));
  done(setCovers(ann.ctx, { target: WHOLE_SONG, lanes: GUESS_LANES }, "students", true));
  const whole = readSong(ann.doc);
  const seen = coverSong(whole, { id: "ben", isStudent: true }).song;
  const at = (lane: GuessLane, startSec: number, endSec: number) =>
    laneAnswer(whole, seen, { lane, startSec, endSec });
  return { ann, at };
}

describe("the answer at a place", () => {
  it("is what takes most of it, in the lane's own form", () => {
    const { at } = lesson();
    expect(at("home", 2, 4).said).toEqual({ lane: "home", value: { tonic: "G", mode: "major" } });
    expect(at("changes", 1.5, 3.9).said?.value).toEqual({ label: "C:maj" });
    expect(at("heard", 0.5, 1.5).said?.value).toEqual({ midis: [59, 64] });
    expect(at("places", 2, 2.5).said?.value).toEqual({ strings: [5, 6], fret: 3, changes: ["A"] });
  });

  it("is ink before pencil", () => {
    const { ann } = lesson();
    done(setChangeLabel(ann.ctx, readSong(ann.doc).changes[1]!.id, "A:min"));
    const song = readSong(ann.doc);
    expect(laneAnswer(song, song, { lane: "changes", startSec: 2, endSec: 4 }).said?.value).toEqual({
      label: "A:min",
    });
  });

  it("compares and hints in each lane", () => {
    const { at } = lesson();
    const chord: LaneValue = { lane: "changes", value: { label: "G:maj" } };
    expect(at("changes", 4, 6).compare(chord)).toBe("fifth");
    const hints = at("changes", 4, 6).hints(chord);
    expect(hints[0]).toMatch(/^The bass /);
    // Home is covered too.
    expect(hints.join()).not.toMatch(/home/);
    expect(at("heard", 0.5, 1.5).hints(null)).toContain("It moves up while it rings; name where it begins.");
    expect(
      at("places", 2, 2.5).compare({ lane: "places", value: { strings: [5, 6], fret: 3, changes: [] } }),
    ).toBe("pedals");
  });

  it("to a place is that of the part in which it is guessed, on its own instrument, whichever is in hand", () => {
    const { ann } = lesson();
    // Four strings in fifths, as a mandolin or a fiddle has them (common practice).
    const fifths = { name: "Fiddle", strings: [76, 69, 62, 55] };
    const from = { kind: "own", id: "fifths", ownerId: "ann" } as const;
    const [part = ""] = done(addPart(ann.ctx, { name: "Fiddle", from, chart: fifths }));
    const bowed = {
      startSec: 2,
      endSec: 3,
      strings: [1],
      fret: 7,
      changes: [],
      articulation: "pick" as const,
    };
    done(addPartEvent(ann.ctx, bowed, "ink", part));
    const song = readSong(ann.doc);
    const stretch = { lane: "places", startSec: 2, endSec: 2.5 } as const;
    const there = laneAnswer(song, song, { ...stretch, part });
    const guess: LaneValue = { lane: "places", value: { strings: [1], fret: 7, changes: [] } };
    expect(there.said).toEqual(guess);
    expect(there.compare(guess)).toBe("same");
    expect(laneAnswer(song, song, stretch).said?.value).toMatchObject({ strings: [5, 6] });
    expect(laneAnswer(song, song, { ...stretch, part: "gone" }).compare(guess)).toBe("none");
  });

  it("is none where nothing is written", () => {
    const { at } = lesson();
    const { said, hints, compare } = at("places", 6, 7);
    expect(said).toBeNull();
    expect(compare({ lane: "places", value: { strings: [4], fret: 3, changes: [] } })).toBe("none");
    expect(hints(null)).toHaveLength(1);
    const empty = readSong(new Y.Doc());
    expect(laneAnswer(empty, empty, { lane: "home", startSec: 0, endSec: 1 }).said).toBeNull();
  });
});

describe("guesses of a passage or the whole song", () => {
  it("come lane by lane or all, the latest first", () => {
    const { ann } = lesson();
    const guess = (nowMs: number, label: string) =>
      done(
        addGuess(
          { ...ann.ctx, nowMs },
          {
            lane: "changes",
            value: { label },
            target: WHOLE_SONG,
            startSec: 2,
            endSec: 4,
            fit: null,
            hintCount: 1,
          },
        ),
      );
    guess(1_000, "F:maj");
    guess(2_000, "C:maj");
    guess(90_000_000, "D:7");
    const { guesses } = readSong(ann.doc);
    expect(guessesOf(guesses, WHOLE_SONG, "home")).toEqual([]);
    expect(guessesOf(guesses, WHOLE_SONG, null).map(({ atMs }) => atMs)).toEqual([90_000_000, 2_000, 1_000]);
  });
});
