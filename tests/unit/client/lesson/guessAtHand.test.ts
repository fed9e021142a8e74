import { describe, expect, it, vi } from "vitest";
import type { Desk, Guessing } from "@/app/songs/[songId]/parts/DeskContext";
import { guessActs } from "@/app/songs/[songId]/parts/guessActs";
import { typedGuess } from "@/lib/client/lesson/typedGuess";
import { PlaceTrial } from "@/lib/client/sound/PlaceTrial";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { E9 } from "@/lib/instrument/copedents/e9";
import { allStages } from "@/lib/instrument/stages";

const PLACE = { strings: [5, 6], fret: 3, changes: ["A"] };
const COVERED = [{ startSec: 2, endSec: 4 }];

/** As much of a desk as leads to a guess: places and heard notes are covered from 2 to 4 s, the caret stands at a time. */
function desk(caretSec: number, fields: { guessing?: Guessing; named?: string } = {}) {
  const setGuessing = vi.fn<Desk["setGuessing"]>();
  const trial = new PlaceTrial();
  const made = {
    covered: { stretches: { home: [], changes: [], heard: COVERED, places: COVERED } },
    whole: { covers: [], studies: [] },
    opened: { song: { homes: [] }, acts: { run: vi.fn() } },
    page: { me: { id: "ben" }, role: "student" },
    player: { timeSec: caretSec, durationSec: 60 },
    axis: { change: vi.fn() },
    grid: null,
    atHand: { study: null },
    mayWrite: true,
    say: vi.fn(),
    selection: { kind: "caret", caret: { string: 5, timeSec: caretSec } },
    guessing: fields.guessing ?? null,
    onBench: { text: fields.named ?? "", notes: [] },
    setGuessing,
    trial,
  } as unknown as Desk;
  return { acts: guessActs(made), setGuessing, trial };
}
const open = (lane: Guessing["lane"]): Guessing => ({
  target: WHOLE_SONG,
  lane,
  startSec: 2,
  endSec: 2.5,
  text: "",
  hints: [],
});

describe("what is at hand as a guess", () => {
  it("a place that is chosen under a cover begins a guess there, and is not written", () => {
    const { acts, setGuessing } = desk(3);
    expect(acts.isPlaceGuessed()).toBe(true);
    expect(acts.takePlace(PLACE)).toBe(true);
    expect(setGuessing).toHaveBeenCalledWith(expect.objectContaining({ lane: "places", startSec: 3 }));
    const { text } = setGuessing.mock.calls[0]![0]!;
    expect(typedGuess(text, "places", { home: null, copedent: E9, near: 64 }).value).toEqual(PLACE);
  });

  it("beside the cover it is no guess", () => {
    const { acts, setGuessing } = desk(5);
    expect(acts.isPlaceGuessed()).toBe(false);
    expect(acts.takePlace(PLACE)).toBe(false);
    expect(setGuessing).not.toHaveBeenCalled();
  });

  it("while a place is guessed at, a chosen place is written into that guess, wherever the caret stands", () => {
    const guessing = open("places");
    const { acts, setGuessing } = desk(5, { guessing });
    expect(acts.takePlace(PLACE)).toBe(true);
    expect(setGuessing).toHaveBeenCalledWith({ ...guessing, text: "5+6 3 A" });
    // Of another lane it is none.
    expect(desk(5, { guessing: open("changes") }).acts.takePlace(PLACE)).toBe(false);
  });

  it("opened while a place is tried, the guess begins with it", () => {
    const { acts, setGuessing, trial } = desk(3);
    const event = { ...PLACE, startSec: 3, endSec: 3.5, articulation: "pick" as const };
    trial.offers({
      about: "",
      isComing: false,
      instead: [],
      places: [{ key: "a", name: "5·6 fret 3 A", events: () => [event], write: () => false }],
    });
    acts.open("places", 3);
    expect(setGuessing.mock.calls[0]![0]!.text).toBe("");
    trial.next();
    acts.open("places", 3);
    expect(setGuessing.mock.calls[1]![0]!.text).toBe("5+6 3 A");
  });

  it("opened after notes were played in, a guess at notes begins with them; one at a change does not", () => {
    const { acts, setGuessing } = desk(3, { named: "B3 G4" });
    acts.open("heard", 3);
    expect(setGuessing.mock.calls[0]![0]).toMatchObject({ lane: "heard", text: "B3 G4" });
    acts.open("places", 3);
    expect(setGuessing.mock.calls[1]![0]!.text).toBe("");
  });

  it("notes that are played in while notes are guessed at are written into the guess", () => {
    const guessing = open("heard");
    const { acts, setGuessing } = desk(3, { guessing });
    expect(acts.takePlayed([67, 59])).toBe(true);
    expect(setGuessing).toHaveBeenCalledWith({ ...guessing, text: "B3 G4" });
    // A place is found for them on the bench.
    expect(desk(3, { guessing: open("places") }).acts.takePlayed([67])).toBe(false);
  });

  it("every pedal, lever and stage of E9 reads as it was tried", () => {
    for (const { id } of allStages(E9)) {
      const { acts, setGuessing } = desk(3);
      acts.takePlace({ ...PLACE, changes: [id] });
      const { text } = setGuessing.mock.calls[0]![0]!;
      expect(typedGuess(text, "places", { home: null, copedent: E9, near: 64 }).value).toMatchObject({
        changes: [id],
      });
    }
  });
});
