import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { fretsOf } from "@/lib/instrument/frets";
import { findFingerings } from "@/lib/places/fingers/fingerCandidates";
import { USUAL_FINGER_WEIGHTS } from "@/lib/places/fingers/fingerWeights";
import { BANJO, BASS, GUITAR, MANDOLIN } from "../../../fixtures/fretted/necks";

const necks = [GUITAR, BASS, BANJO, MANDOLIN];
/** Millimetres between full-length strings' nut and bridge, said apart from the code (common practice, no source). */
const SCALE_MM = new Map<Copedent, number>([
  [GUITAR, 648],
  [BASS, 864],
  [BANJO, 648],
  [MANDOLIN, 352],
]);

/** Every fret on every choice of strings, kept where the pitches come out and a hand can do it: the rule in plain words. */
function bruteForce(neck: Copedent, notes: readonly number[]): string[] {
  const found = new Set<string>();
  const held: { string: number; fret: number }[] = [];
  const goOn = () => {
    const note = notes[held.length];
    if (note === undefined) {
      if (handCan(neck, held)) found.add(held.map(({ string, fret }) => `${string}:${fret}`).join(" "));
      return;
    }
    for (const { number } of neck.strings) {
      if (held.some(({ string }) => string === number)) continue;
      for (let fret = 0; fret <= neck.fretCount; fret += 1) {
        const begins = neck.strings.find((each) => each.number === number)!.beginsAtFret ?? 0;
        // A short string is open at 0 and has nothing to stop up to where it begins.
        if (fret > 0 && fret <= begins) continue;
        const [midi] = stoppedPitches(neck, { fret, strings: [number], changes: [] });
        if (midi !== note) continue;
        held.push({ string: number, fret });
        goOn();
        held.pop();
      }
    }
  };
  goOn();
  return [...found].sort();
}

function handCan(neck: Copedent, held: readonly { string: number; fret: number }[]): boolean {
  const stops = held.filter(({ fret }) => fret > 0);
  if (stops.length === 0) return true;
  const lowest = Math.min(...stops.map(({ fret }) => fret));
  const highest = Math.max(...stops.map(({ fret }) => fret));
  const scale = SCALE_MM.get(neck)!;
  const at = (fret: number) => scale - scale / 2 ** (fret / 12);
  if (at(highest) - at(lowest) > 132) return false;
  if (stops.length <= 4) return true;
  // More stops than fingers: one finger for each run of strings at one fret that no lower string breaks.
  const inOrder = [...held].sort((a, b) => a.string - b.string);
  let fingers = 0;
  for (let fret = 1; fret <= neck.fretCount; fret += 1) {
    const seen = inOrder.filter((each) => each.fret <= fret).map((each) => each.fret === fret);
    fingers += seen.filter((isHere, index) => isHere && !seen[index - 1]).length;
  }
  return fingers <= 4;
}

const chordOn = (neck: Copedent) =>
  fc.uniqueArray(
    fc.integer({
      min: Math.min(...neck.strings.map(({ openMidi }) => openMidi)) - 2,
      max: Math.max(...neck.strings.map(({ openMidi }) => openMidi)) + neck.fretCount,
    }),
    { minLength: 1, maxLength: 5 },
  );
/** Chords that lie together: pitches of strings held within a few frets. */
const heldOn = (neck: Copedent) =>
  fc
    .tuple(
      fc.integer({ min: 0, max: 14 }),
      fc.subarray([...neck.strings], { minLength: 1 }),
      fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 6, maxLength: 6 }),
    )
    .map(([base, strings, offsets]) => [
      ...new Set(
        strings.map(({ openMidi }, index) => openMidi + (offsets[index] === 0 ? 0 : base + offsets[index]!)),
      ),
    ]);

describe.each(necks.map((neck) => [neck.name, neck] as const))("fingerings on the %s", (_, neck) => {
  const find = (notes: readonly number[]) => findFingerings(neck, notes, USUAL_FINGER_WEIGHTS);

  it("are just those that trying every fret on every string gives", () => {
    fc.assert(
      fc.property(fc.oneof(chordOn(neck), heldOn(neck)), (notes) => {
        const found = find(notes).map(({ place }) =>
          place.strings.map((string, at) => `${string}:${fretsOf(place)[at]}`).join(" "),
        );
        expect(new Set(found).size).toBe(found.length);
        expect([...found].sort()).toEqual(bruteForce(neck, notes));
      }),
      { numRuns: 60 },
    );
  });

  it("sound the notes asked for, each on a string of its own", () => {
    fc.assert(
      fc.property(heldOn(neck), (notes) => {
        for (const { place } of find(notes)) {
          expect(stoppedPitches(neck, place)).toEqual(notes);
          expect(new Set(place.strings).size).toBe(notes.length);
        }
      }),
    );
  });

  it("move by as many frets as the notes move by semitones, where no string is open and the neck is long enough", () => {
    fc.assert(
      fc.property(heldOn(neck), fc.integer({ min: 1, max: 5 }), (notes, by) => {
        const moved = find(notes.map((note) => note + by)).map(
          (each) => `${each.place.strings} ${each.frets}`,
        );
        for (const { place, frets, highest } of find(notes)) {
          if (frets.includes(0) || highest + by > neck.fretCount) continue;
          expect(moved).toContain(`${place.strings} ${frets.map((fret) => fret + by)}`);
        }
      }),
    );
  });
});

describe("a banjo's short string", () => {
  it("is open, or stopped beyond the fifth fret where it begins, never below", () => {
    const on5 = (note: number) =>
      findFingerings(BANJO, [note], USUAL_FINGER_WEIGHTS)
        .filter(({ place }) => place.strings[0] === 5)
        .map(({ place }) => place.fret);
    // G4 = 67 open (firmchronicle.com banjo notes); a semitone above lies behind the sixth fret (calculated).
    expect(on5(66)).toEqual([]);
    expect(on5(67)).toEqual([0]);
    expect(on5(68)).toEqual([6]);
    expect(on5(79)).toEqual([17]);
  });
});

/** Chord shapes that every handbook of the instrument begins with (common practice, no source), string 1 first; - is not played. */
const SHAPES: [string, Copedent, string, { fingers: number; isBarre: boolean }][] = [
  ["C on the guitar", GUITAR, "0 1 0 2 3 -", { fingers: 3, isBarre: false }],
  ["G on the guitar", GUITAR, "3 0 0 0 2 3", { fingers: 3, isBarre: false }],
  ["D on the guitar", GUITAR, "2 3 2 0 - -", { fingers: 3, isBarre: false }],
  ["E minor on the guitar", GUITAR, "0 0 0 2 2 0", { fingers: 2, isBarre: false }],
  ["F on the guitar, across all strings", GUITAR, "1 1 2 3 3 1", { fingers: 4, isBarre: true }],
  ["B minor on the guitar, across five", GUITAR, "2 3 4 4 2 -", { fingers: 4, isBarre: true }],
  ["G open on the banjo", BANJO, "0 0 0 0 0", { fingers: 0, isBarre: false }],
  ["C on the banjo", BANJO, "2 1 0 2 0", { fingers: 3, isBarre: false }],
  ["G on the mandolin", MANDOLIN, "3 2 0 0", { fingers: 2, isBarre: false }],
  ["G chopped on the mandolin", MANDOLIN, "3 5 2 7", { fingers: 4, isBarre: false }],
];

describe("shapes of the handbooks", () => {
  it.each(SHAPES)("%s is one of the fingerings of its notes", (_, neck, shape, hand) => {
    const held = shape
      .split(" ")
      .flatMap((fret, index) => (fret === "-" ? [] : [{ string: index + 1, fret: Number(fret) }]));
    const strings = held.map(({ string }) => string);
    const frets = held.map(({ fret }) => fret);
    const notes = stoppedPitches(neck, { fret: 0, frets, strings, changes: [] }) as number[];
    const found = findFingerings(neck, notes, USUAL_FINGER_WEIGHTS);
    const same = found.find((each) => `${each.place.strings} ${each.frets}` === `${strings} ${frets}`);
    expect(same).toMatchObject(hand);
  });

  it("no hand stops more than four strings at different frets, or the first and the ninth fret at once", () => {
    const notes = stoppedPitches(GUITAR, {
      fret: 1,
      frets: [1, 2, 3, 2, 1],
      strings: [1, 2, 3, 4, 5],
      changes: [],
    }) as number[];
    const same = findFingerings(GUITAR, notes, USUAL_FINGER_WEIGHTS).map(({ frets }) => frets.join());
    // Index across five strings at 1, two fingers at 2, one at 3: just four.
    expect(same).toContain("1,2,3,2,1");
    expect(
      findFingerings(GUITAR, [65, 49], USUAL_FINGER_WEIGHTS).map(({ frets }) => frets.join()),
    ).not.toContain("1,9");
  });
});
