import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { chordMaskOf } from "@/lib/places/chordAgreement";
import { chordUnderHand } from "@/lib/places/fingers/chordUnderHand";
import { fingeringOf, fingerPlace } from "@/lib/places/fingers/Fingering";
import { USUAL_FINGER_WEIGHTS } from "@/lib/places/fingers/fingerWeights";
import { fretsUnderHand, scaleMm } from "@/lib/places/fingers/fretGeometry";
import { placeSequence } from "@/lib/places/placeSequence";
import { rankPlaces } from "@/lib/places/rankPlaces";
import { parseHarte } from "@/lib/theory/harte";
import { BASS, GUITAR, MANDOLIN } from "../../../fixtures/fretted/necks";

const w = USUAL_FINGER_WEIGHTS;
const fingeringAt = (neck: Copedent, strings: number[], frets: number[]) => {
  const notes = strings.map((string, at) => effectiveMidi(neck, string, frets[at]!, [])!);
  return fingeringOf(neck, fingerPlace(strings, frets, notes), strings.length, w);
};
const agreementAt = (neck: Copedent, label: string, strings: number[], frets: number[], position: number) =>
  chordUnderHand(neck, { fingering: fingeringAt(neck, strings, frets)!, position }, chordMaskOf(label), w);

/** Every way to lay fingers on the neck from a position, tried one by one: said apart from the code under test. */
function bruteForce(neck: Copedent, label: string, strings: number[], frets: number[], position: number) {
  const chord = parseHarte(label)!.pitchClasses;
  const under = [0, ...Array.from({ length: fretsUnderHand(scaleMm(neck)) }, (_, at) => position + at)];
  let most = 0;
  const goOn = (at: number, held: [string: number, fret: number][]) => {
    const number = at + 1;
    if (at < neck.strings.length) {
      const own = strings.indexOf(number);
      if (own >= 0) return goOn(at + 1, [...held, [number, frets[own]!]]);
      goOn(at + 1, held);
      for (const fret of under)
        if (fret <= neck.fretCount && chord.includes(effectiveMidi(neck, number, fret, [])! % 12))
          goOn(at + 1, [...held, [number, fret]]);
      return;
    }
    const numbers = held.map(([string]) => string);
    const isRun = Math.max(...numbers) - Math.min(...numbers) === numbers.length - 1;
    if (!isRun || numbers.length > 4) return;
    const fingering = fingeringOf(
      neck,
      fingerPlace(
        numbers,
        held.map(([, fret]) => fret),
        [],
      ),
      numbers.length,
      w,
    );
    if (!fingering?.positions.includes(position)) return;
    most = Math.max(
      most,
      new Set(held.map(([string, fret]) => effectiveMidi(neck, string, fret, [])! % 12)).size,
    );
  };
  goOn(0, []);
  if (most >= 3) return "matched";
  return most / new Set(chord).size >= 0.6 ? "near" : "foreign";
}

describe("a chord under the hand", () => {
  // The open C chord, x32010, and the same with the first finger lying at 8 (common practice, no source).
  it("is the whole of it where free fingers can make a grip of what is played", () => {
    expect(agreementAt(GUITAR, "C:maj", [2], [1], 1)).toBe("matched");
    expect(agreementAt(GUITAR, "C:maj", [1], [8], 8)).toBe("matched");
    expect(agreementAt(GUITAR, "C:maj", [1, 2, 3], [8, 8, 9], 8)).toBe("matched");
  });

  it("is what one position gives and another does not", () => {
    // F#2 at fret 9 of the A string of a bass: C# lies at 9 of the E string, A# at 8 of the D string, so that an index
    // finger at 8 has both under the hand, and at 9 not; no open string is of the chord (calculated from the tuning).
    expect(agreementAt(BASS, "F#:maj", [3], [9], 8)).toBe("matched");
    expect(agreementAt(BASS, "F#:maj", [3], [9], 9)).toBe("near");
  });

  it("never speaks for more notes than a chord has: of two notes it is nearly the chord at best", () => {
    expect(agreementAt(GUITAR, "C:5", [1], [8], 8)).toBe("near");
  });

  it("is just what trying every grip on every string finds", () => {
    const labels = fc.constantFrom("C:maj", "A:min", "D:7", "G:maj", "F#:dim", "Eb:maj7");
    const states = fc.record({
      neck: fc.constantFrom(BASS, MANDOLIN),
      label: labels,
      string: fc.integer({ min: 1, max: 4 }),
      fret: fc.integer({ min: 0, max: 15 }),
      second: fc.option(fc.integer({ min: 0, max: 15 }), { nil: null }),
      nth: fc.nat(3),
    });
    let counted = 0;
    fc.assert(
      fc.property(states, ({ neck, label, string, fret, second, nth }) => {
        const strings = second === null || string === 4 ? [string] : [string, string + 1];
        const frets = second === null || string === 4 ? [fret] : [fret, second];
        const fingering = fingeringAt(neck, strings, frets);
        const chord = parseHarte(label)!.pitchClasses;
        fc.pre(fingering !== null);
        fc.pre(fingering.place.notesMidi.every((midi) => chord.includes(midi % 12)));
        const position = fingering.positions[nth % fingering.positions.length]!;
        counted += 1;
        expect(agreementAt(neck, label, strings, frets, position)).toBe(
          bruteForce(neck, label, strings, frets, position),
        );
      }),
      { numRuns: 60 },
    );
    expect(counted).toBeGreaterThan(30);
  });
});

describe("the chord in force under fingers", () => {
  const termOf = (terms: readonly { name: string; cost: number }[]) =>
    terms.find(({ name }) => name === "chord in force")?.cost ?? 0;

  it("speaks for a place among others, with a reason, and only where the notes are of it", () => {
    const ranked = rankPlaces(GUITAR, [60], { chordLabel: "C:maj" });
    const [best] = ranked;
    expect(termOf(best!.terms)).toBe(w.chordMatched);
    expect(best!.reason).toContain("The C chord lies under the hand.");
    for (const place of rankPlaces(GUITAR, [61], { chordLabel: "C:maj" })) {
      expect(termOf(place.terms)).toBe(0);
      expect(place.reason).not.toContain("chord");
    }
    for (const place of rankPlaces(GUITAR, [60])) expect(termOf(place.terms)).toBe(0);
  });

  it("brings the hand of a whole part to where it carries the chord, and adds up", () => {
    const event = { startSec: 0, endSec: 1, notesMidi: [42] };
    const withChord = placeSequence(BASS, [{ ...event, chordLabel: "F#:maj" }]);
    const without = placeSequence(BASS, [event]);
    const at = (placed: typeof without) => {
      const { candidates } = placed.events[0]!;
      const index = candidates.findIndex(({ strings, fret }) => strings[0] === 3 && fret === 9);
      return { cost: candidates[index]!.cost, ...placed.explain(0, index) };
    };
    expect(at(without).reason).toMatch(/^Index at 9\./);
    expect(at(withChord).reason).toMatch(/^Index at 8\. The F# chord lies under the hand\./);
    expect(termOf(at(withChord).terms)).toBe(w.chordMatched);
    const { terms, cost } = at(withChord);
    expect(terms.reduce((sum, term) => sum + term.cost, 0)).toBeCloseTo(cost, 9);
    expect(cost).toBeCloseTo(at(without).cost + w.chordMatched + w.perFretBehind, 9);
  });
});
