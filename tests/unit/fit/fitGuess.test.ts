import { describe, expect, it } from "vitest";
import type { NotesFit } from "@/lib/fit/FitAnswer";
import { FitEar } from "@/lib/fit/FitEar";
import { fitGuess } from "@/lib/fit/fitGuess";
import type { Guess } from "@/lib/fit/Guess";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { addTones, RATE_HZ } from "../hearing/band";
import { play } from "../hearing/notes/steelSound";

function recordOf(samples: Float32Array): RecordSignal {
  const intake = new RecordIntake(RATE_HZ);
  intake.take([samples], samples.length);
  return intake.finish();
}

const ears = new Map<number, FitEar>();

/** Making one takes longer than a look. */
function earFor(tuningCents: number): FitEar {
  const ear = ears.get(tuningCents) ?? new FitEar(tuningCents);
  ears.set(tuningCents, ear);
  return ear;
}

const notes = (...midis: number[]): Guess => ({ kind: "notes", notes: midis.map((midi) => ({ midi })) });

function fitOf(record: RecordSignal, guess: Guess, startSec = 0.5, endSec = 1.5, tuningCents = 0): NotesFit {
  const answer = fitGuess(earFor(tuningCents), record, { startSec, endSec }, guess);
  if (answer.kind !== "notes") throw new Error("notes were asked for");
  return answer;
}

/** A steel pair, E4 over B3, alone; with vibrato where asked. */
function pair(vibrato = false): RecordSignal {
  const wide = vibrato ? { vibrato: { rateHz: 6, depthCents: 25 } } : {};
  return recordOf(
    play([
      { startSec: 0.5, endSec: 1.6, midi: 59, ...wide },
      { startSec: 0.5, endSec: 1.6, midi: 64, ...wide },
    ]),
  );
}

describe("fit of notes", () => {
  it("reads a pair higher than every near miss of it, and each near miss low where it is asked for itself", () => {
    const record = pair();
    const { fit, perNote, nearest } = fitOf(record, notes(59, 64));
    expect(fit).toBeGreaterThan(0.7);
    for (const near of nearest) expect(near.fit, near.notesMidi.join()).toBeLessThan(fit);
    for (const note of perNote) expect(note.fit).toBeGreaterThan(0.8);
    for (const wrong of [
      [58, 64],
      [59, 65],
      [57, 64],
      [59, 66],
      [59, 76],
      [47, 64],
    ])
      expect(fitOf(record, notes(...wrong)).fit, wrong.join()).toBeLessThan(0.3);
  });

  it("reads a near miss alike, whether it is asked for itself or beside another guess", () => {
    const record = pair();
    const beside = fitOf(record, notes(59, 64)).nearest.find(
      ({ notesMidi }) => notesMidi.join() === "59,65",
    )!;
    expect(fitOf(record, notes(59, 65)).fit).toBeCloseTo(beside.fit, 9);
  });

  it("knows the pair under vibrato, 30 cents off the grid, and in a record that stands off concert pitch", () => {
    expect(fitOf(pair(true), notes(59, 64)).fit).toBeGreaterThan(0.5);
    const off = recordOf(
      play([
        { startSec: 0.5, endSec: 1.6, midi: 59.25 },
        { startSec: 0.5, endSec: 1.6, midi: 64.25 },
      ]),
    );
    const { fit, perNote } = fitOf(off, notes(59, 64));
    expect(fit).toBeGreaterThan(0.5);
    for (const { offCents } of perNote) expect(offCents).toBeGreaterThan(8);
    // The same sound in a record that runs 25 cents high is in tune.
    const inTune = fitOf(off, notes(59, 64), 0.5, 1.5, 25);
    expect(inTune.fit).toBeGreaterThan(0.7);
    for (const { offCents } of inTune.perNote) expect(Math.abs(offCents)).toBeLessThan(8);
  });

  it("follows a glide: what lies before and after it must both agree", () => {
    const record = recordOf(
      play([
        { startSec: 0.5, endSec: 2.5, midi: 59, glides: [[1.5, 0.15, 61]] },
        { startSec: 0.5, endSec: 2.5, midi: 64 },
      ]),
    );
    const glide = (toMidi: number): Guess => ({
      kind: "notes",
      notes: [{ midi: 59, glides: [{ toMidi, atSec: 1.5, durationSec: 0.15 }] }, { midi: 64 }],
    });
    const right = fitOf(record, glide(61), 0.5, 2.4).fit;
    expect(right).toBeGreaterThan(0.5);
    expect(fitOf(record, glide(60), 0.5, 2.4).fit).toBeLessThan(0.3);
    expect(fitOf(record, notes(59, 64), 0.5, 2.4).fit).toBeLessThan(right);
  });

  it("holds two notes that begin on one pitch against both of the pitches that they part to, in either order", () => {
    const stroke = { startSec: 0.5, endSec: 2.5, midi: 59 };
    const parted = recordOf(play([{ ...stroke, glides: [[1.5, 0.15, 61]] }, stroke]));
    const together = recordOf(play([{ ...stroke, glides: [[1.5, 0.15, 61]] }]));
    const ways = [{ midi: 59, glides: [{ toMidi: 61, atSec: 1.5, durationSec: 0.15 }] }, { midi: 59 }];
    const read = (record: RecordSignal, of: typeof ways) =>
      fitOf(record, { kind: "notes", notes: of }, 0.5, 2.4).fit;
    expect(read(parted, ways.toReversed())).toBe(read(parted, ways));
    expect(read(parted, ways)).toBeGreaterThan(0.5);
    // Where no note stays behind, neither order may take the guess for the glide alone.
    expect(read(together, ways)).toBeLessThan(0.3);
    expect(read(together, ways.toReversed())).toBeLessThan(0.3);
  });

  it("says so where the notes glide all through the passage, or there is no passage", () => {
    const glides = [{ toMidi: 61, atSec: 1, durationSec: 1.2 }];
    const gliding: Guess = { kind: "notes", notes: [{ midi: 59, glides }] };
    expect(() => fitOf(pair(), gliding, 0.5, 1.5)).toThrow(/glide all through/);
    expect(() => fitOf(pair(), notes(59), 1, 1)).toThrow(/must last 0.05 s/);
  });

  it("reads any notes low in silence", () => {
    const record = recordOf(new Float32Array(2 * RATE_HZ));
    expect(fitOf(record, notes(67)).fit).toBeLessThan(0.3);
  });

  it.each([
    [notes(), 1.5, /at least one note/],
    [notes(20), 1.5, /from 28 \(E1\) to 96/],
    [notes(60.5), 1.5, /whole MIDI numbers/],
    [notes(...Array.from({ length: 11 }, (_, i) => 50 + i)), 1.5, /10 notes at most/],
    [notes(60), 0.51, /at least/],
  ])(
    "says what is wrong with a guess that cannot be held against the record (%#)",
    (guess, endSec, words) => {
      expect(() => fitOf(pair(), guess, 0.5, endSec)).toThrow(words);
    },
  );
});

describe("fit of chords and keys", () => {
  const tones = new Float32Array(4 * RATE_HZ);
  // G, C, D and G major, a second each, bass below: in G.
  [
    [43, 62, 67, 71],
    [48, 64, 67, 72],
    [50, 62, 66, 69],
    [43, 62, 67, 71],
  ].forEach((midis, at) => {
    addTones(
      tones,
      midis.map((midi) => ({ startSec: at, endSec: at + 1, midi })),
    );
  });
  const record = recordOf(tones);

  it("reads the chord that sounds highest among those near it", () => {
    const answer = fitGuess(
      earFor(0),
      record,
      { startSec: 0.1, endSec: 0.95 },
      { kind: "chord", label: "G:maj" },
    );
    expect(answer.fit).toBeGreaterThan(0.6);
    for (const near of answer.nearest) expect(near.fit).toBeLessThan(answer.fit);
  });

  it("reads the key higher than those a fifth, a half step and a whole step off", () => {
    const key = { tonic: "G", mode: "major" } as const;
    const answer = fitGuess(earFor(0), record, { startSec: 0, endSec: 4 }, { kind: "key", key });
    if (answer.kind !== "key") throw new Error("a key was asked for");
    for (const near of answer.nearest.filter((each) => each.key.mode === "major"))
      expect(near.fit, near.key.tonic).toBeLessThan(answer.fit);
  });

  it("does not take that there is no chord", () => {
    expect(() =>
      fitGuess(earFor(0), record, { startSec: 0, endSec: 1 }, { kind: "chord", label: "N" }),
    ).toThrow(/name a chord/);
  });
});
