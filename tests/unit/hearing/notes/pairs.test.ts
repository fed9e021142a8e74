import { describe, expect, it, vi } from "vitest";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { heardIn, matching, type Played, play } from "./steelSound";

vi.setConfig({ testTimeout: 60_000 });

/** Low strings from which the pairs are played in turn: E3 to B3. */
const LOW = [52, 54, 57, 59];
const INTERVALS = Array.from({ length: 24 }, (_, i) => i + 1);
const EVERY_SEC = 0.9;
const LENGTH_SEC = 0.75;

/** A pair of each interval from a minor second to two octaves, one after the other. */
function pairs(manner: Partial<Played> = {}): [Played, Played][] {
  return INTERVALS.map((interval, i) => {
    const startSec = 0.3 + i * EVERY_SEC;
    const string = (midi: number) => ({ startSec, endSec: startSec + LENGTH_SEC, midi, ...manner });
    const low = LOW[i % LOW.length]!;
    return [string(low), string(low + interval)];
  });
}

/** All partials of the upper string lie on the lower one's: whether both are heard when struck at once is left open. */
const OCTAVE = 12;
/**
 * The same at the twelfth and the double octave; struck plainly and in tune these must be heard, swelled in or on a record
 * that is out of tune it is left open.
 */
const ON_ONE_SERIES = [OCTAVE, 19, 24];

/** Intervals, but those left open, of the pairs of which not both notes are heard. */
function missed(
  heard: readonly HeardNote[],
  played: readonly [Played, Played][],
  open: readonly number[] = [OCTAVE],
): number[] {
  return INTERVALS.filter(
    (interval, i) =>
      !open.includes(interval) && played[i]!.some((string) => matching(heard, string).length === 0),
  );
}

/** Notes heard that nobody played. */
function ghosts(
  heard: readonly HeardNote[],
  played: readonly { startSec: number; midi: number }[],
): HeardNote[] {
  return heard.filter((note) => !played.some((string) => matching([note], string).length > 0));
}

describe("pairs at every interval from a minor second to two octaves", () => {
  it("are heard whole, with no ghosts and no glides", async () => {
    const played = pairs();
    const heard = await heardIn(play(played.flat()));
    expect(missed(heard, played)).toEqual([]);
    expect(ghosts(heard, played.flat())).toEqual([]);
    for (const note of heard) expect(note.glides).toEqual([]);
  });

  it("are heard whole under a vibrato, each note once and at its centre", async () => {
    const played = pairs({ vibrato: { rateHz: 5.5, depthCents: 25 } });
    const heard = await heardIn(play(played.flat()));
    expect(missed(heard, played)).toEqual([]);
    expect(ghosts(heard, played.flat())).toEqual([]);
    for (const string of played.flat()) {
      for (const note of matching(heard, string)) expect(Math.abs(note.midi - string.midi)).toBeLessThan(0.1);
    }
  });

  it("are heard whole where the volume pedal swells them in", async () => {
    const played = pairs({ swellSec: 0.12 });
    const heard = await heardIn(play(played.flat()));
    expect(missed(heard, played, ON_ONE_SERIES)).toEqual([]);
  });

  it("are told from a bass that plays under them", async () => {
    const played = pairs();
    const bass = played.map(([{ startSec, endSec, midi }]) => ({ startSec, endSec, midi: 28 + (midi % 12) }));
    const heard = await heardIn(play(played.flat(), { bass }));
    expect(missed(heard, played)).toEqual([]);
    expect(ghosts(heard, [...played.flat(), ...bass])).toEqual([]);
    for (const note of bass.flatMap((note) => matching(heard, note))) expect(note.steel).toBeLessThan(0.5);
  });

  it("are heard at their own pitch on a record that stands a third of a semitone high", async () => {
    const played = pairs();
    const heard = await heardIn(play(played.flat(), { tuningCents: 33 }));
    expect(missed(heard, played, ON_ONE_SERIES)).toEqual([]);
  });
});
