import { beforeAll, describe, expect, it } from "vitest";
import { asStretch, ringingAtEnd } from "@/lib/client/entry/hearTogether";
import { nearerTuning } from "@/lib/client/entry/nearerTuning";
import { type Moment, OnePitch } from "@/lib/client/entry/onePitch";
import { followPick, NO_PICK } from "@/lib/client/entry/pickedTogether";
import { hearStretch } from "@/lib/client/hearing/passage/hearStretch";
import { rms } from "@/lib/dsp/rms";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";

const RATE = 48_000;
const HOP_SEC = 0.03;
/** As much as the microphone keeps. */
const KEPT_SEC = 0.64;

/** Handfuls of the steel, one after the other, with a room's hiss. */
function handfuls(...picked: Picked[]): Float32Array {
  return handfulsAt(RATE, ...picked);
}

interface Picked {
  midis: readonly number[];
  startSec: number;
  endSec: number;
}

function handfulsAt(rateHz: number, ...picked: Picked[]): Float32Array {
  const notes = picked.flatMap(({ midis, startSec, endSec }) =>
    midis.map((midi) => ({
      ...{ startSec, endSec, pitch: [{ timeSec: 0, midi }], vibrato: null, level: 0.15, swellSec: 0 },
    })),
  );
  const lastSec = Math.max(...picked.map(({ endSec }) => endSec)) + 0.2;
  const noise = seededNoise(9);
  return renderSteel(notes, lastSec, rateHz, seededNoise(2)).map((sample) => sample + 0.001 * noise());
}

/** When a sound that is listened to look by look is found to be several notes, as samples so far. */
function due(sound: Float32Array, rateHz = RATE): number[] {
  const ear = new OnePitch(rateHz);
  const found: number[] = [];
  let pick = NO_PICK;
  for (let end = ear.frameLength; end <= sound.length; end += HOP_SEC * rateHz) {
    const frame = sound.subarray(end - ear.frameLength, end);
    const moment: Moment = ear.hear(frame);
    const next = followPick(pick, { moment, level: rms(frame.subarray(-1024)) }, end / rateHz);
    pick = next.pick;
    if (next.isDue) found.push(end);
  }
  return found;
}

describe("what is picked", () => {
  it("is asked about once where it is a pair, half a second after, and not where it is one note", () => {
    const pair = handfuls({ midis: [59, 64], startSec: 0.5, endSec: 2.5 });
    const found = due(pair);
    expect(found).toHaveLength(1);
    expect(found[0]! / RATE).toBeGreaterThan(0.95);
    expect(found[0]! / RATE).toBeLessThan(1.2);
    expect(due(handfuls({ midis: [64], startSec: 0.5, endSec: 2.5 }))).toEqual([]);
  });

  it("is asked about again when another is picked over it, and after silence", () => {
    const twice = handfuls(
      { midis: [59, 64], startSec: 0.5, endSec: 1.6 },
      { midis: [61, 66], startSec: 2, endSec: 3 },
    );
    expect(due(twice)).toHaveLength(2);
  });
});

describe("notes picked together, by the notes ear", () => {
  let ear: NotesEar;
  beforeAll(async () => {
    const { notesEar } = await readLearnedEars();
    if (!notesEar) throw new Error("no weights are in this checkout");
    ear = notesEar;
  });

  /** Pairs and a chord as grips of E9 give them: thirds, fourths, fifths, sixths and a tenth. */
  it.each([
    [[56, 59]],
    [[59, 64]],
    [[64, 68]],
    [[52, 59]],
    [[59, 68]],
    [[52, 68]],
    [[56, 59, 64]],
    [[59, 64, 68]],
  ])(
    "are told from one another: %j",
    (midis) => {
      const sound = handfuls({ midis, startSec: 0.5, endSec: 2.5 });
      const [end] = due(sound);
      const { stretch, passage } = asStretch(sound.subarray(end! - KEPT_SEC * RATE, end), RATE);
      const heard = ringingAtEnd(hearStretch(ear, stretch, passage, 0), passage.endSec);
      expect(nearerTuning(heard, 0).midis).toEqual(midis);
    },
    60_000,
  );

  it.each([
    [96_000, [59, 64]],
    [96_000, [56, 59, 64]],
    [192_000, [59, 68]],
  ])(
    "are told at a sample rate of %i Hz too: %j",
    (rateHz, midis) => {
      const sound = handfulsAt(rateHz, { midis, startSec: 0.5, endSec: 1.5 });
      const [end] = due(sound, rateHz);
      const { stretch, passage } = asStretch(sound.subarray(end! - KEPT_SEC * rateHz, end), rateHz);
      const heard = ringingAtEnd(hearStretch(ear, stretch, passage, 0), passage.endSec);
      expect(nearerTuning(heard, 0).midis).toEqual(midis);
    },
    60_000,
  );

  it("are those picked last where others rang before", () => {
    const sound = handfuls(
      { midis: [54, 57], startSec: 0.4, endSec: 1.5 },
      { midis: [59, 64], startSec: 1.52, endSec: 3 },
    );
    const end = Math.round(2.05 * RATE);
    const { stretch, passage } = asStretch(sound.subarray(end - KEPT_SEC * RATE, end), RATE);
    const heard = ringingAtEnd(hearStretch(ear, stretch, passage, 0), passage.endSec);
    expect(nearerTuning(heard, 0).midis).toEqual([59, 64]);
  }, 60_000);
});
