import { beforeAll, describe, expect, it } from "vitest";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import { hertzRatioToCents, midiToHertz } from "@/lib/units/pitch";
import { listen, PORTION, pace, play, RATE_HZ, tell, tone, voiceOf } from "./playing";

/** Two notes of a steel, one after the other. */
const LOW = { startSec: 0.5, endSec: 1.4, midi: 59 };
const HIGH = { startSec: 1.5, endSec: 2.4, midi: 66 };
let steel: Float32Array;

beforeAll(() => {
  steel = renderSteel(
    [LOW, HIGH].map(({ startSec, endSec, midi }) => ({
      ...{ startSec, endSec, pitch: [{ timeSec: startSec, midi }], vibrato: null, level: 0.4, swellSec: 0 },
    })),
    3,
    RATE_HZ,
    seededNoise(1),
  );
});

/** What is heard of a record from its beginning on, from the moment on at which it is heard. */
async function heardAt(samples: Float32Array, speed: number, shiftCents = 0): Promise<Float32Array> {
  const voice = await voiceOf([samples]);
  tell(voice, pace(speed, shiftCents), play(0));
  while (!voice.now().isSounding) listen(voice, 1, 1);
  return listen(voice, Math.round((2.9 / speed) * RATE_HZ), PORTION).left;
}

/** A Hann-windowed Fourier sum about one moment: how strong a frequency is there, and in which phase. */
function partialAt(samples: Float32Array, frequencyHz: number, middle: number, lengthFrames: number) {
  let [re, im] = [0, 0];
  for (let index = 0; index < lengthFrames; index += 1) {
    const at = Math.round(middle) - lengthFrames / 2 + index;
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (index + 0.5)) / lengthFrames);
    const phase = (2 * Math.PI * frequencyHz * at) / RATE_HZ;
    re += window * (samples[at] ?? 0) * Math.cos(phase);
    im -= window * (samples[at] ?? 0) * Math.sin(phase);
  }
  return { amount: Math.hypot(re, im), phase: Math.atan2(im, re) };
}

/** The frequency near one that is known, from how far its phase goes on in a quarter of a second. */
function frequencyNear(samples: Float32Array, nearHz: number, fromSec: number): number {
  const [length, step] = [0.2 * RATE_HZ, 0.25];
  const first = partialAt(samples, nearHz, fromSec * RATE_HZ, length);
  const second = partialAt(samples, nearHz, (fromSec + step) * RATE_HZ, length);
  const turned = second.phase - first.phase;
  return nearHz + (turned / (2 * Math.PI) - Math.round(turned / (2 * Math.PI))) / step;
}

/** When a note begins: its fundamental first reaches half of the height that it has about there. */
function onsetSec(samples: Float32Array, frequencyHz: number, nearSec: number): number {
  const heights = Array.from(
    { length: 240 },
    (_, ms) => partialAt(samples, frequencyHz, (nearSec - 0.12 + ms / 1000) * RATE_HZ, 960).amount,
  );
  const half = Math.max(...heights) / 2;
  return nearSec - 0.12 + heights.findIndex((height) => height >= half) / 1000;
}

describe("a record at half its speed", () => {
  it("keeps a tone of 440 Hz within a cent", async () => {
    const heard = await heardAt(tone(440, 3), 0.5);
    for (const sec of [1, 2.5, 4])
      expect(Math.abs(hertzRatioToCents(440, frequencyNear(heard, 440, sec)))).toBeLessThan(1);
  });

  it("keeps both notes of a steel within a cent", async () => {
    const heard = await heardAt(steel, 0.5);
    for (const { midi, startSec } of [LOW, HIGH]) {
      const inRecord = frequencyNear(steel, midiToHertz(midi), startSec + 0.3);
      const slowed = frequencyNear(heard, midiToHertz(midi), 2 * startSec + 0.6);
      expect(Math.abs(hertzRatioToCents(inRecord, slowed))).toBeLessThan(1);
    }
  });

  it("lets both begin within 10 ms of twice their time", async () => {
    const heard = await heardAt(steel, 0.5);
    for (const { midi, startSec } of [LOW, HIGH]) {
      const wanted = 2 * onsetSec(steel, midiToHertz(midi), startSec);
      const off = onsetSec(heard, midiToHertz(midi), 2 * startSec) - wanted;
      expect(Math.abs(off)).toBeLessThan(0.01);
    }
  });

  it("keeps a tone as loud as it was", async () => {
    const heard = await heardAt(tone(440, 3), 0.5);
    const { amount } = partialAt(heard, 440, 2.5 * RATE_HZ, 9600);
    const { amount: own } = partialAt(tone(440, 3), 440, 1.25 * RATE_HZ, 9600);
    expect(Math.abs(20 * Math.log10(amount / own))).toBeLessThan(1);
  });
});

describe("a record that is moved", () => {
  it.each([
    [1, -1200],
    [1, 1200],
    [1, 17],
    [0.7, -350],
    [1.5, 200],
  ])("at %f of its speed by %i cents is off by less than a cent", async (speed, shiftCents) => {
    const heard = await heardAt(tone(440, 3), speed, shiftCents);
    const wantedHz = 440 * 2 ** (shiftCents / 1200);
    const off = hertzRatioToCents(wantedHz, frequencyNear(heard, wantedHz, 0.8 / speed));
    expect(Math.abs(off)).toBeLessThan(1);
  });
});
