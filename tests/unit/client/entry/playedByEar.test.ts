import { describe, expect, it } from "vitest";
import { type Moment, OnePitch } from "@/lib/client/entry/onePitch";
import { NOTHING_SETTLED, type SettledNote, settle } from "@/lib/client/entry/settlePitch";
import type { PitchPoint, Vibrato } from "@/lib/synth/pitchTrack";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";

const RATE = 48_000;
const HOP_SEC = 0.03;

interface Played {
  pitch: readonly PitchPoint[];
  startSec?: number;
  endSec?: number;
  vibrato?: Vibrato | null;
}

/** The steel voice as a microphone would have it: quiet, with a room's hiss 50 dB below full scale and mains hum. */
function asHeard(
  played: readonly Played[],
  durationSec: number,
  { cents = 0, level = 0.2 } = {},
): Float32Array {
  const notes = played.map(({ pitch, startSec = 0.2, endSec = durationSec - 0.1, vibrato = null }) => ({
    ...{ pitch, startSec, endSec, vibrato, level, swellSec: 0 },
  }));
  const sound = renderSteel(notes, durationSec, RATE, seededNoise(3), cents);
  const noise = seededNoise(11);
  return sound.map(
    (sample, n) => sample + 0.001 * noise() + 0.0005 * Math.sin((2 * Math.PI * 50 * n) / RATE),
  );
}

const ear = new OnePitch(RATE);

/** Every moment of a sound as the page listens to it. */
function moments(sound: Float32Array): { timeSec: number; moment: Moment }[] {
  const length = ear.frameLength;
  const count = Math.floor((sound.length - length) / (HOP_SEC * RATE));
  return Array.from({ length: count }, (_, at) => {
    const start = Math.round(at * HOP_SEC * RATE);
    return { timeSec: at * HOP_SEC, moment: ear.hear(sound.subarray(start, start + length)) };
  });
}

/** The notes that settle in a sound, one after the other. */
function settled(sound: Float32Array, tuningCents = 0): SettledNote[] {
  const notes: SettledNote[] = [];
  let now = NOTHING_SETTLED;
  for (const { timeSec, moment } of moments(sound)) {
    now = settle(now, moment, timeSec, tuningCents);
    if (now.note && now.note.midi !== notes.at(-1)?.midi) notes.push(now.note);
  }
  return notes;
}
const names = (notes: readonly SettledNote[]) => notes.map(({ midi }) => midi);
const still = (midi: number): PitchPoint[] => [{ timeSec: 0, midi }];

describe("one note into the microphone", () => {
  /** From the five-string bass's B0 (23) over a steel's range, 47 to 93 (domain of E9: B2 to A6), in steps that meet every class. */
  it.each(Array.from({ length: 15 }, (_, at) => 23 + 5 * at))("is named: %i", (midi) => {
    const notes = settled(asHeard([{ pitch: still(midi) }], 1.2));
    expect(names(notes)).toEqual([midi]);
    expect(Math.abs(notes[0]!.offCents)).toBeLessThan(8);
  });

  it("is named as well when it is faint", () => {
    expect(names(settled(asHeard([{ pitch: still(62) }], 1.2, { level: 0.05 })))).toEqual([62]);
  });

  it("keeps its name under the hand's vibrato", () => {
    const vibrato = { startSec: 0.3, rateHz: 5.5, depthCents: 25 };
    expect(names(settled(asHeard([{ pitch: still(64), vibrato }], 1.6)))).toEqual([64]);
  });

  it("is named where it comes to rest, not on the way of a slide", () => {
    const slide = [
      { timeSec: 0.9, midi: 59 },
      { timeSec: 1.2, midi: 64 },
    ];
    expect(names(settled(asHeard([{ pitch: slide }], 2.2)))).toEqual([59, 64]);
  });

  it("makes way for the next", () => {
    const tune = [57, 60, 64].map((midi, at) => ({
      ...{ pitch: still(midi), startSec: 0.2 + 0.6 * at, endSec: 0.75 + 0.6 * at },
    }));
    expect(names(settled(asHeard(tune, 2.2)))).toEqual([57, 60, 64]);
  });

  it("is named by A440 or by the record's tuning, in which it stands nearer to a name", () => {
    const inRecord = settled(asHeard([{ pitch: still(66) }], 1.2, { cents: 60 }), 60);
    expect(names(inRecord)).toEqual([66]);
    expect(Math.abs(inRecord[0]!.offCents)).toBeLessThan(8);
    expect(names(settled(asHeard([{ pitch: still(66) }], 1.2), 60))).toEqual([66]);
  });
});

describe("anything but one note", () => {
  it("is silence where the room hums", () => {
    expect(new Set(moments(asHeard([], 1)).map(({ moment }) => moment.kind))).toEqual(new Set(["silence"]));
  });

  /** Every pair that two strings of a grip give, a minor third to a tenth, but for the octave. */
  it.each([3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 14, 15, 16])(
    "is not taken for a note that nobody played: two strings %i semitones apart",
    (apart) => {
      for (const low of [52, 59, 64]) {
        const heard = settled(asHeard([{ pitch: still(low) }, { pitch: still(low + apart) }], 1.2));
        for (const { midi } of heard) expect([low, low + apart]).toContain(midi);
      }
    },
  );
});
