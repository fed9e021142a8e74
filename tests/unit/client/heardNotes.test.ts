import { describe, expect, it } from "vitest";
import { LONGEST_SOUND_SEC, notesAsSteel } from "@/lib/client/player/notesAsSteel";
import { CEILING } from "@/lib/client/player/outputChain";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { noteTrace, traceMidiAt } from "@/lib/client/song/noteTrace";
import { asHeard, glideSize, handful, movesWords, offWords, pickedWith } from "@/lib/client/song/noteWords";
import { wantedPitches } from "@/lib/client/song/wantedPitches";
import type { GlideKind } from "@/lib/hearing/Hearing";
import { passageWords } from "@/lib/hearing/notes/passageWords";
import { midiToName } from "@/lib/theory/spelling";

const note = (startSec: number, endSec: number, midi: number) => ({ startSec, endSec, midi, glides: [] });
const glide = (toMidi: number, atSec: number, kind: GlideKind = "pedal", durationSec = 0.2) => ({
  kind,
  toMidi,
  atSec,
  durationSec,
});

describe("the trace of a note", () => {
  it("is flat where it stays, and slopes where it glides", () => {
    expect(noteTrace(note(1, 3, 64))).toEqual([
      { timeSec: 1, midi: 64 },
      { timeSec: 3, midi: 64 },
    ]);
    const trace = noteTrace({ ...note(1, 3, 64), glides: [glide(66, 2)] });
    expect(trace.map(({ midi }) => midi)).toEqual([64, 64, 66, 66]);
    expect(trace.map(({ timeSec }) => timeSec)).toEqual([1, 1.9, 2.1, 3]);
    expect([0, 1.5, 2, 2.5, 9].map((sec) => traceMidiAt(trace, sec))).toEqual([64, 64, 65, 66, 66]);
  });

  it("never runs back, however close glides lie and wherever the note was cut", () => {
    const trace = noteTrace({ ...note(1, 2, 64), glides: [glide(66, 1.05), glide(64, 1.1), glide(67, 2.4)] });
    const times = trace.map(({ timeSec }) => timeSec);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    expect([times[0], times.at(-1)]).toEqual([1, 2]);
  });
});

describe("a note in words", () => {
  it("tells each move: which way, how far, when, by what", () => {
    expect(movesWords(note(1, 3, 64))).toBe("");
    expect(movesWords({ midi: 64.1, glides: [glide(66, 2.3)] })).toBe(
      "pulled up a whole step at 0:02.30, by a pedal or lever",
    );
    expect(movesWords({ midi: 64, glides: [glide(65, 2.3), glide(64, 62.5)] })).toBe(
      "pulled up a half step at 0:02.30, by a pedal or lever, then let down a half step at 1:02.50, by a pedal or lever",
    );
    expect(movesWords({ midi: 64, glides: [glide(67, 2, "bar"), glide(62, 4, "unsure")] })).toBe(
      "slid up a minor third at 0:02.00, by the bar, then goes down a fourth at 0:04.00, by pedal or bar, not to be told",
    );
  });

  // Names of the intervals by half steps: any primer of music theory; from memory.
  it("names how far a glide goes", () => {
    expect([0.3, -1, 2, 7, -12, 14].map(glideSize)).toEqual([
      "less than a half step",
      "a half step",
      "a whole step",
      "a fifth",
      "an octave",
      "14 half steps",
    ]);
  });

  it("says how far it is off only where that can be heard", () => {
    expect([64, 64.05, 64.14, 63.8].map(offWords)).toEqual([
      "",
      "",
      "+14 ¢ off the even scale",
      "−20 ¢ off the even scale",
    ]);
  });
});

describe("notes taken together", () => {
  const low = note(1, 2, 64);
  const high = note(1.03, 2, 68);
  const later = note(1.2, 2, 71);
  it("are those of one stroke, from high to low", () => {
    expect(pickedWith([low, high, later], low)).toEqual([high, low]);
    expect(pickedWith([low, high, later], later)).toEqual([later]);
  });

  it("are handed to the bench as names that it reads, three at most, the nearest", () => {
    const chord = [52, 59, 64, 68, 71].map((midi) => note(1, 2, midi));
    const taken = handful(chord, chord[3]!, 3);
    expect(taken.map(({ midi }) => midi)).toEqual([71, 68, 64]);
    const key = { tonic: "Eb", mode: "major" } as const;
    const named = taken.map(({ midi }) => midiToName(midi, key)).join(" ");
    expect(wantedPitches(named, { key, near: 60 })).toEqual([71, 68, 64]);
  });

  it("within a passage are those that begin in it, and are told as the steel's", () => {
    const within = beginningWithin([low, high, later], { startSec: 1, endSec: 1.2 });
    expect(within).toEqual([low, high]);
    const words = passageWords(within.map((each) => asHeard({ ...each, confidence: null })));
    expect(words.slice(0, 2)).toEqual(["pairs", "mostly thirds, near together"]);
  });
});

describe("notes heard alone", () => {
  const rateHz = 8000;
  /** Cycles a second, by crossings of zero upwards in a stretch. */
  function pitchHz(samples: Float32Array, fromSec: number, toSec: number): number {
    const part = smooth(samples.slice(fromSec * rateHz, toSec * rateHz));
    const crossings: number[] = [];
    for (let i = 1; i < part.length; i += 1) if (part[i - 1]! < 0 && part[i]! >= 0) crossings.push(i);
    const [first = 0] = crossings;
    return ((crossings.length - 1) * rateHz) / ((crossings.at(-1) ?? 0) - first);
  }
  /** Three running means take the higher partials away. */
  function smooth(samples: Float32Array): Float32Array {
    let out = samples;
    for (let round = 0; round < 3; round += 1) {
      const from = out;
      out = from.map((_, i) => {
        let sum = 0;
        for (let k = 0; k < 9; k += 1) sum += from[i + k] ?? 0;
        return sum / 9;
      });
    }
    return out;
  }

  // f = 440 * 2^((m - 69) / 12), ISO 16.
  it("sound at their pitch, in tune with the record, and glide", () => {
    const moved = { ...note(5, 7, 57), glides: [glide(64, 6)] };
    const samples = notesAsSteel([moved], rateHz, 20);
    expect(samples.length).toBe(Math.ceil(2.1 * rateHz));
    const tuned = 2 ** (20 / 1200);
    expect(pitchHz(samples, 0.2, 0.8) / (220 * tuned)).toBeCloseTo(1, 2);
    expect(pitchHz(samples, 1.2, 1.8) / (440 * 2 ** (-5 / 12) * tuned)).toBeCloseTo(1, 2);
  });

  it("never pass the ceiling, are cut off in the end, and are silent where there are none", () => {
    const many = [52, 56, 59, 64, 68, 71].map((midi) => note(0, 30, midi));
    const samples = notesAsSteel(many, rateHz, 0);
    expect(samples.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0)).toBeLessThanOrEqual(
      CEILING,
    );
    expect(samples.length).toBe(LONGEST_SOUND_SEC * rateHz);
    expect(notesAsSteel([], rateHz, 0)).toHaveLength(0);
  });
});
