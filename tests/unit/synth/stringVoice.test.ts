import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ENDINGS, type EndingName, type Pluck } from "@/lib/synth/Pluck";
import { SongClock } from "@/lib/synth/SongClock";
import { StringVoice } from "@/lib/synth/StringVoice";
import { seededNoise } from "@/lib/synth/seededNoise";
import { steelPluck } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { TIMBRES } from "@/lib/synth/timbres";
import { midiToHertz } from "@/lib/units/pitch";
import { centsFrom, strengthAt } from "./measurePitch";
import { peakCentsFrom } from "./spectralPitch";

const RATE_HZ = 44100;

/** A steel string as it dies by itself: no foot on the pedal, no pick's noise. */
function bare(midi: number, more: Partial<Pluck> = {}): Pluck {
  const note = {
    startSec: 0,
    endSec: 3,
    pitch: [{ timeSec: 0, midi }],
    vibrato: null,
    level: 0.5,
    swellSec: 0,
  };
  return { ...steelPluck(note, 0, 7), opening: 0, scrape: 0, ...more };
}

/** Plays one string in portions of these sizes, again and again. */
function played(pluck: Pluck, lengthSec: number, portions: readonly number[] = [128]): Float32Array {
  const clock = new SongClock(RATE_HZ);
  clock.start(0, 0);
  const voice = new StringVoice(RATE_HZ);
  const out = new Float32Array(Math.ceil(lengthSec * RATE_HZ));
  voice.pick(TIMBRES.steel, pluck, Math.round(pluck.startSec * RATE_HZ), clock);
  for (let at = 0, turn = 0; at < out.length; turn += 1) {
    const count = Math.min(portions[turn % portions.length]!, out.length - at);
    voice.addTo(out, at, at, count, clock);
    at += count;
  }
  return out;
}

function rms(samples: Float32Array, startSec: number, lengthSec: number): number {
  const part = samples.subarray(Math.round(startSec * RATE_HZ), Math.round((startSec + lengthSec) * RATE_HZ));
  return Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / part.length);
}

/** Where two sounds begin to differ; -1 where they do not. */
function firstDifference(one: Float32Array, other: Float32Array): number {
  if (one.length !== other.length) return Math.min(one.length, other.length);
  return one.findIndex((sample, index) => !Object.is(sample, other[index]));
}

describe("a string that holds its pitch", () => {
  // ISO 16: A4 = 440 Hz, equal temperament. From C2, the lowest string of C6, to A6, the highest fret of E9 (domain
  // sections 1.1 and 1.4; steelguitaramerica.com/instruction/tuning, steelc6th.com/tabs/c6th_pedal_steel).
  it.each([36, 47, 52, 59, 64, 68, 69, 76, 88, 93])("MIDI %i is within 1 cent", (midi) => {
    const sound = played(bare(midi), 1.6);
    expect(Math.abs(peakCentsFrom(midiToHertz(midi), sound, RATE_HZ, 0.1, 1.4))).toBeLessThan(1);
  });

  it("is as far from A440 as it is told", () => {
    for (const tuningCents of [-37, 14]) {
      const sound = played(bare(64, { tuningCents }), 1.6);
      expect(peakCentsFrom(midiToHertz(64), sound, RATE_HZ, 0.1, 1.4)).toBeCloseTo(tuningCents, 0);
    }
  });
});

describe("how a string dies", () => {
  it.each([
    [52, 1],
    [52, 4],
    [64, 1],
    [64, 8],
  ])("MIDI %i, partial %i: at the rate that its timbre declares, within 2 %%", (midi, partial) => {
    const sound = played(bare(midi), 2.6);
    const hertz = midiToHertz(midi) * partial;
    const first = strengthAt(hertz, sound, RATE_HZ, 0.2, 0.4);
    const last = strengthAt(hertz, sound, RATE_HZ, 2, 0.4);
    const { damping, airDamping } = TIMBRES.steel;
    const declared = damping + airDamping * hertz ** 2;
    expect(Math.log(first / last) / 1.8 / declared).toBeCloseTo(1, 1.5);
  });

  it.each(Object.keys(ENDINGS) as EndingName[])(
    "stopped by %s it is silent when that says, and not before",
    (ending) => {
      const { silentAfterSec } = ENDINGS[ending];
      const endSec = 0.5;
      const sound = played(bare(59, { endSec, ending }), 1);
      // Up to one chunk of 32 samples later, 0.7 ms.
      const silentSec = endSec + silentAfterSec + 0.001;
      expect(sound.subarray(Math.ceil(silentSec * RATE_HZ)).every((sample) => sample === 0)).toBe(true);
      expect(rms(sound, endSec - 0.05, 0.05)).toBeGreaterThan(0.05);
      expect(rms(sound, endSec, silentAfterSec / 4)).toBeGreaterThan(0.01);
    },
  );

  it("blocked by the palm it goes dull at once; lifted off, it keeps its tone", () => {
    const ends = (ending: EndingName) => {
      const sound = played(bare(52, { endSec: 0.5, ending }), 1);
      const steep = Float32Array.from(sound, (sample, index) => sample - (sound[index - 1] ?? 0));
      return rms(steep, 0.51, 0.015) / rms(sound, 0.51, 0.015);
    };
    expect(ends("palm")).toBeLessThan(0.7 * ends("lift"));
  });

  it("blocks sooner with the pick than with the palm, and with either well before a tenth of a second", () => {
    expect(ENDINGS.pick.silentAfterSec).toBeLessThan(ENDINGS.palm.silentAfterSec);
    expect(ENDINGS.palm.silentAfterSec).toBeLessThan(0.1);
  });
});

describe("moving strings", () => {
  const gliding = (midi: number, toMidi: number) => [
    { timeSec: 0, midi },
    { timeSec: 0.8, midi },
    { timeSec: 1, midi: toMidi },
  ];

  it("the pedal moves one string while another holds", () => {
    // Pedal A lifts string 5 from B3 to C#4 against string 4, E4 (domain section 1.2, guitarlicks.net).
    const pulled = played(bare(59, { pitch: gliding(59, 61) }), 2.2);
    const held = played(bare(64), 2.2);
    expect(Math.abs(centsFrom(midiToHertz(59), pulled, RATE_HZ, 0.2, 0.5))).toBeLessThan(1);
    expect(Math.abs(centsFrom(midiToHertz(61), pulled, RATE_HZ, 1.1, 0.8))).toBeLessThan(1);
    for (const startSec of [0.2, 0.75, 1.2])
      expect(Math.abs(centsFrom(midiToHertz(64), held, RATE_HZ, startSec, 0.3))).toBeLessThan(1);
  });

  it("the bar moves both by equal cents, at every moment of its way", () => {
    const low = played(bare(61, { pitch: gliding(61, 66) }), 2);
    const high = played(bare(69, { pitch: gliding(69, 74) }), 2);
    for (let timeSec = 0.7; timeSec < 1.2; timeSec += 0.05) {
      const way = Math.min(1, Math.max(0, (timeSec + 0.006 - 0.8) / 0.2));
      const moved = 5 * (0.5 - 0.5 * Math.cos(Math.PI * way));
      const cents = [
        [low, 61],
        [high, 69],
      ].map(([sound, midi]) =>
        centsFrom(midiToHertz((midi as number) + moved), sound as Float32Array, RATE_HZ, timeSec, 0.004),
      );
      // On the way a lag of 40 ms takes in what moves meanwhile: alike for both, not exact for either.
      expect(Math.abs(cents[0]! - cents[1]!)).toBeLessThan(25);
    }
    expect(centsFrom(midiToHertz(66), low, RATE_HZ, 1.2, 0.5)).toBeCloseTo(0, 0);
    expect(centsFrom(midiToHertz(74), high, RATE_HZ, 1.2, 0.5)).toBeCloseTo(0, 0);
  });

  it("the hand shakes them at its rate and by its depth", () => {
    const vibrato = { startSec: 0.2, rateHz: 5.6, depthCents: 15 };
    const sound = played(bare(69, { vibrato, endSec: 3 }), 3);
    // Zero crossings of the filtered fundamental give its frequency from cycle to cycle.
    const trace: number[] = [];
    for (let timeSec = 1; timeSec < 2.6; timeSec += 0.01) trace.push(cycleCents(sound, 440, timeSec));
    const depth = (Math.max(...trace) - Math.min(...trace)) / 2;
    expect(depth).toBeGreaterThan(14);
    expect(depth).toBeLessThan(16);
    const mean = trace.reduce((sum, cents) => sum + cents, 0) / trace.length;
    expect(Math.abs(mean)).toBeLessThan(1);
    const rising = trace.flatMap((cents, at) =>
      at > 0 && trace[at - 1]! < mean && cents >= mean ? [at] : [],
    );
    const rateHz = (rising.length - 1) / ((rising.at(-1)! - rising[0]!) * 0.01);
    expect(rateHz).toBeGreaterThan(5.5);
    expect(rateHz).toBeLessThan(5.7);
  });
});

/** Frequency about a time, from the phase of the fundamental 8 ms before and after it. */
function cycleCents(sound: Float32Array, nearHz: number, timeSec: number): number {
  const phaseAt = (centreSec: number) => {
    const count = Math.round((6 / nearHz) * RATE_HZ);
    const first = Math.round(centreSec * RATE_HZ) - Math.round(count / 2);
    let [real, imaginary] = [0, 0];
    for (let index = 0; index < count; index += 1) {
      const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / count);
      const turn = (2 * Math.PI * nearHz * (first + index)) / RATE_HZ;
      real += sound[first + index]! * window * Math.cos(turn);
      imaginary -= sound[first + index]! * window * Math.sin(turn);
    }
    return Math.atan2(imaginary, real);
  };
  const apartSec = 0.016;
  let turned = phaseAt(timeSec + apartSec / 2) - phaseAt(timeSec - apartSec / 2);
  turned -= 2 * Math.PI * Math.round(turned / (2 * Math.PI));
  return 1200 * Math.log2(1 + turned / (2 * Math.PI * apartSec * nearHz));
}

describe("every string, whatever is asked of it", () => {
  const anyPluck = fc.record({
    midi: fc.integer({ min: 20, max: 110 }),
    toMidi: fc.integer({ min: 20, max: 110 }),
    lengthSec: fc.double({ min: 0.001, max: 0.4, noNaN: true }),
    level: fc.double({ min: 0, max: 1, noNaN: true }),
    attackSec: fc.double({ min: 0.0001, max: 0.3, noNaN: true }),
    ending: fc.constantFrom<EndingName>("lift", "letGo", "palm", "pick"),
    shakes: fc.boolean(),
  });

  it("sounds the same in portions of any size, live as at once, sample for sample", () => {
    fc.assert(
      fc.property(
        anyPluck,
        fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 1, maxLength: 6 }),
        ({ midi, toMidi, lengthSec, level, attackSec, ending, shakes }, portions) => {
          const vibrato = shakes ? { startSec: 0.01, rateHz: 6, depthCents: 20 } : null;
          const pitch = [
            { timeSec: 0.003, midi },
            { timeSec: 0.003 + lengthSec, midi: toMidi },
          ];
          const more = {
            startSec: 0.003,
            endSec: 0.003 + lengthSec,
            pitch,
            level,
            attackSec,
            ending,
            vibrato,
            scrape: 0.05,
          };
          const live = played(bare(midi, more), 0.55, portions);
          const atOnce = played(bare(midi, more), 0.55, [100_000]);
          expect(firstDifference(live, atOnce)).toBe(-1);
          // Of power level²; partials that all crest at once stay below the sum of a 1/n series of 300.
          expect(atOnce.findIndex((sample) => !(Math.abs(sample) <= 6.3 * level + 1e-9))).toBe(-1);
          expect(atOnce.at(-1)).toBe(0);
        },
      ),
      { numRuns: 25 },
    );
  });

  it("is what renderSteel writes", () => {
    const note = {
      startSec: 0.05,
      endSec: 0.4,
      pitch: [{ timeSec: 0.05, midi: 64 }],
      vibrato: null,
      level: 0.5,
      swellSec: 0,
    };
    const seed = Math.round((seededNoise(3)() + 1) * 2 ** 31);
    const rendered = renderSteel([note], 0.6, RATE_HZ, seededNoise(3));
    expect(firstDifference(rendered, played(steelPluck(note, 0, seed), 0.6, [7, 128]))).toBe(-1);
  });
});
