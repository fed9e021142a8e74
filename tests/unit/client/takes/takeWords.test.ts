import { describe, expect, it } from "vitest";
import { faultFrom, takeFaults, takeLine } from "@/lib/client/takes/takeWords";
import type { Key } from "@/lib/theory/key";
import { judgedStroke as stroke, judgedTake as take } from "./judgedTakes";

const G: Key = { tonic: "G", mode: "major" };
const naming = { grid: null, keyAt: () => G };
const words = (of: ReturnType<typeof take>) => takeFaults(of, naming).map((fault) => fault.words);

describe("a take in words", () => {
  it("is told as a whole: clean or not, how it lies and how far it spreads", () => {
    const late = [0.002, 0.004, 0.022, -0.01].map((lateSec, at) => stroke(`e${at}`, at, { lateSec }));
    expect(takeLine(take(late))).toBe("Clean. 3 ms behind on the whole, spread 10 ms.");
    const early = late.map((each) => ({ ...each, lateSec: each.lateSec! - 0.05 }));
    expect(takeLine(take(early))).toBe("Clean. 47 ms ahead on the whole, spread 10 ms.");
    const [first, ...others] = late;
    const missed = { ...first!, verdict: "missed" as const, lateSec: null, fit: null };
    expect(takeLine(take([missed, ...others]))).toBe(
      "Not clean yet, 3 of 4 strokes found. 4 ms behind on the whole, spread 21 ms.",
    );
  });

  it("says what to do where nothing is written, nothing heard, all far off, or uneven", () => {
    expect(takeLine(take([]))).toContain("Nothing of the part is written here");
    expect(takeLine(take([stroke("a", 1)], [], { flaws: ["silent", "missed"], isClean: false }))).toContain(
      "Look at the microphone",
    );
    const far = [0.3, 0.31, 0.29].map((lateSec, at) => stroke(`e${at}`, at, { lateSec }));
    expect(takeLine(take(far))).toContain("have its delay measured again");
    const uneven = [-0.09, 0.09, -0.08, 0.08].map((lateSec, at) => stroke(`e${at}`, at, { lateSec }));
    expect(takeLine(take(uneven))).toContain("play it slower");
  });

  it("names wanted and heard notes as home spells them, with octaves only where they tell them apart", () => {
    const heard = (notesMidi: number[], heardMidi: number[]) =>
      words(take([stroke("a", 1, { notesMidi, verdict: "other", heardMidi })]))[0];
    expect(heard([67], [66])).toBe("0:01.00: G wanted, F♯ heard");
    expect(heard([67], [55])).toBe("0:01.00: G4 wanted, G3 heard");
    expect(heard([62, 67], [67])).toBe("0:01.00: D is not heard, only G");
    expect(heard([67], [67, 71])).toBe("0:01.00: B heard besides G");
  });

  it("tells each fault where it lies, in order of time", () => {
    const faults = takeFaults(
      take(
        [
          stroke("a", 1, { verdict: "missed", lateSec: null, fit: null }),
          stroke("b", 2, { glides: [{ eventId: "p", toMidi: 69, hasArrived: false, heardMidi: 67 }] }),
          stroke("c", 3, { glides: [{ eventId: "q", toMidi: 69, hasArrived: false, heardMidi: null }] }),
          stroke("d", 4, { lateSec: 0.15 }),
          stroke("e", 5),
          stroke("f", 6),
        ],
        [{ atSec: 3.5, heardMidi: [60] }],
      ),
      naming,
    );
    expect(faults).toEqual([
      { atSec: 1, eventId: "a", words: "0:01.00: G wanted, nothing was picked there" },
      { atSec: 2, eventId: "p", words: "0:02.00: should come to A, it stands at G" },
      { atSec: 3, eventId: "q", words: "0:03.00: should come to A, it is not heard there" },
      { atSec: 3.5, eventId: null, words: "0:03.50: C heard, where nothing is written" },
      { atSec: 4, eventId: "d", words: "0:04.00: 146 ms late beside the rest" },
    ]);
    expect(faultFrom(faults, 2, 1)!.atSec).toBe(3);
    expect(faultFrom(faults, 2, -1)!.atSec).toBe(1);
    expect(faultFrom(faults, 9, 1)!.atSec).toBe(1);
    expect(faultFrom(faults, 0, -1)!.atSec).toBe(4);
    expect(faultFrom([], 0, 1)).toBeNull();
  });
});
