import { describe, expect, it } from "vitest";
import { type AskedEvent, askedEvent, askedNotes, askedStrokes } from "@/lib/client/fit/askedEvents";
import { type CheckState, PassageCheck } from "@/lib/client/fit/PassageCheck";
import { RecordFitter } from "@/lib/client/fit/RecordFitter";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { NotesFit } from "@/lib/fit/FitAnswer";
import { E9 } from "@/lib/instrument/copedents/e9";
import { SILENT_STRETCH } from "../passage/silentStretch";

function eventAt(startSec: number, midi = 67): AskedEvent {
  return {
    eventId: `event at ${startSec}`,
    asked: { passage: { startSec, endSec: startSec + 1 }, guess: { kind: "notes", notes: [{ midi }] } },
  };
}

const ANSWER: NotesFit = { kind: "notes", notesMidi: [67], fit: 0.9, perNote: [], nearest: [] };

/** A fitter whose worker answers each guess alike, and what it was asked to read. */
function made(answer: (at: number) => Promise<void> = async () => {}) {
  const reads: { startFrame: number; endFrame: number }[] = [];
  let asked = 0;
  const fitter = new RecordFitter(
    {
      read: async (place) => {
        reads.push(place({ sampleRateHz: 22_050 } as never));
        return SILENT_STRETCH;
      },
      peek: async () => {},
    },
    {
      warm: () => {},
      close: () => {},
      fit: async (_, __, guesses, onOutcome, signal) => {
        for (let at = 0; at < guesses.length; at++) {
          await answer(asked++);
          signal?.throwIfAborted();
          onOutcome(at, guesses[at]!.passage.startSec === 13 ? { refused: "no" } : { answer: ANSWER });
        }
      },
    },
  );
  const check = new PassageCheck(fitter);
  const told: CheckState[] = [];
  check.watch(() => told.push(check.now()));
  return { fitter, check, reads, told };
}

describe("a check of a part", () => {
  it("fetches what lies together at once, tells how far it is, and keeps what cannot be told apart", async () => {
    const { check, reads, told } = made();
    const events = [30, 0, 5, 10, 13, 31].map((sec) => eventAt(sec));
    expect(await check.run(events, 0)).toBe(true);
    // 0 to 11, 13 to 14 and 30 to 32 seconds, with what is looked at on either side.
    expect(reads.map(({ startFrame }) => startFrame / 22_050)).toEqual([0, 12.5, 29.5]);
    const { underWay, marks, refusedCount, fault } = check.now();
    expect([underWay, fault, refusedCount]).toEqual([null, null, 1]);
    expect(marks.map(({ startSec }) => startSec)).toEqual([0, 5, 10, 30, 31]);
    const steps = told.flatMap((state) => state.underWay?.done ?? []);
    expect(steps).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it("is ended at once; what it found stays, and another can be begun", async () => {
    const { check } = made(async (at) => {
      if (at === 1) check.cancel();
    });
    expect(
      await check.run(
        [0, 1, 2].map((sec) => eventAt(sec)),
        0,
      ),
    ).toBe(false);
    expect(check.now()).toMatchObject({ underWay: null, fault: null });
    expect(check.now().marks).toHaveLength(1);
    expect(await check.run([eventAt(1)], 0)).toBe(true);
    expect(check.now().marks.map(({ startSec }) => startSec)).toEqual([0, 1]);
  });

  it("says in words why it was not done, and leaves earlier marks", async () => {
    const { check } = made(async (at) => {
      if (at === 1) throw new Error("The record is gone.");
    });
    await check.run([eventAt(0)], 0);
    await check.run([eventAt(4)], 0);
    expect(check.now()).toMatchObject({ underWay: null, fault: "The record is gone." });
    expect(check.now().marks).toHaveLength(1);
  });

  it("asks for the same guess once", async () => {
    const { fitter, reads } = made();
    const { signal } = new AbortController();
    const { asked } = eventAt(3);
    await fitter.ask(asked, 0, signal);
    await fitter.ask(asked, 0, signal);
    expect(reads).toHaveLength(1);
    await fitter.ask(asked, 12, signal);
    expect(reads).toHaveLength(2);
    await expect(fitter.ask(eventAt(13).asked, 0, signal)).rejects.toThrow("no");
  });
});

describe("what is asked of the record", () => {
  const base = {
    startSec: 2,
    endSec: 3,
    strings: [3, 5],
    fret: 3,
    changes: [],
    articulation: "pick",
  } as const;
  const event = (fields: Partial<ShownPart>) => ({ ...base, id: "e", ...fields }) as ShownPart;
  const askedOf = (one: ShownPart, others: ShownPart[] = []) => askedEvent(one, [one, ...others], E9)!.asked;

  it("is the pitches of an event, from its start to its end, two seconds at most", () => {
    // Strings 3 and 5 of E9 behind fret 3 are B4 and D4 (domain sheet 1.1: G#4 and B3 open).
    expect(askedOf(event({}))).toEqual({
      passage: { startSec: 2, endSec: 3 },
      guess: { kind: "notes", notes: [{ midi: 71 }, { midi: 62 }] },
    });
    expect(askedOf(event({ endSec: 9 })).passage.endSec).toBe(4);
  });

  it("begins after the move of an event that is not picked, where that leaves enough to hear", () => {
    expect(askedOf(event({ articulation: "slide" })).passage.startSec).toBeCloseTo(2.08, 9);
    expect(askedOf(event({ articulation: "slide", endSec: 2.1 })).passage.startSec).toBe(2);
  });

  it("is a stroke as a whole, once, and what rings on where it glides in", () => {
    // String 10 is B2 open (domain sheet 1.1), string 4 E4.
    const low = event({ id: "low", strings: [10], fret: 0, endSec: 2.6 });
    const held = event({ id: "held", strings: [4], startSec: 1, endSec: 4, fret: 3 });
    const pitches = (asked: ReturnType<typeof askedOf>) =>
      asked.guess.kind === "notes" ? asked.guess.notes.map(({ midi }) => midi) : [];
    const together = askedOf(event({}), [low, held]);
    expect(pitches(together)).toEqual([71, 62, 47]);
    expect(together.passage.endSec).toBe(2.6);
    expect(
      askedStrokes([event({}), low, held], [event({}), low, held], E9).map(({ eventId }) => eventId),
    ).toEqual(["e", "held"]);
    expect(pitches(askedOf(event({ articulation: "slide" }), [held]))).toEqual([71, 62, 67]);
  });

  it("is heard notes in whole semitones with their glides, as long as all of them sound", () => {
    const glide = { kind: "pedal", toMidi: 61.02, atSec: 1.5, durationSec: 0.1 } as const;
    const asked = askedNotes([
      { startSec: 1, endSec: 2.5, midi: 58.9, glides: [glide] },
      { startSec: 1.02, endSec: 2.2, midi: 64.1, glides: [] },
    ]);
    expect(asked).toEqual({
      passage: { startSec: 1, endSec: 2.2 },
      guess: {
        kind: "notes",
        notes: [
          { midi: 59, glides: [{ toMidi: 61, atSec: 1.5, durationSec: 0.1 }] },
          { midi: 64, glides: [] },
        ],
      },
    });
  });
});
