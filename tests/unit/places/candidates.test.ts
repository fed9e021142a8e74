import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Change, Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { withStages } from "@/lib/instrument/stages";
import { candidatePlaces } from "@/lib/places/candidates";
import { layOutNeck } from "@/lib/places/neck";
import type { Place } from "@/lib/places/Place";
import { parsePitchName } from "@/lib/theory/spelling";
import counts from "../../fixtures/steel/candidateCounts.json";
import positions from "../../fixtures/steel/positions.json";
import { bruteForcePlaces, writePlace } from "./bruteForce";
import { randomCopedents } from "./randomCopedents";

const neck = layOutNeck(E9);
const write = ({ fret, changes, strings }: Pick<Place, "fret" | "changes" | "strings">) =>
  `${fret} ${[...changes].sort().join("+")} on ${strings.join("-")}`;

/** Every set of changes a body can hold on this copedent, written out by hand from its slots. */
const PEDALS = [[], ["A"], ["B"], ["C"], ["A", "B"], ["B", "C"]];
const LEFT_KNEE = [[], ["F"], ["E"], ["V"], ["F", "V"], ["E", "V"]];
const RIGHT_KNEE = [[], ["D"], ["DD"], ["X"], ["G"], ["D", "G"], ["DD", "G"], ["X", "G"]];
const ALL_SETS = PEDALS.flatMap((feet) =>
  LEFT_KNEE.flatMap((left) => RIGHT_KNEE.map((right) => [...feet, ...left, ...right])),
);
const PITCHES = ALL_SETS.map(
  (changes) => new Map(E9.strings.map(({ number }) => [number, effectiveMidi(E9, number, 0, changes)])),
);

const chords = fc
  .array(fc.integer({ min: 45, max: 95 }), { minLength: 1, maxLength: 3 })
  .map((notes) => notes.sort());
/** Chords that the neck can play, so that the tests do not mostly compare empty with empty. */
const playable = fc
  .tuple(
    fc.constantFrom(...PITCHES),
    fc.integer({ min: 0, max: 24 }),
    fc.uniqueArray(fc.integer({ min: 1, max: 10 }), { minLength: 1, maxLength: 3 }),
  )
  .map(([open, fret, strings]) => strings.map((string) => (open.get(string) ?? 60) + fret).sort());

/** Notes that some strings of a random instrument give somewhere on the way, with what tells them. */
const anywhere = fc
  .tuple(
    randomCopedents,
    fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.constantFrom(-2, -1, 0, 0, 0, 1, 2, 3)), {
      minLength: 1,
      maxLength: 4,
    }),
    fc.integer({ min: 0, max: 12 }),
  )
  .map(([copedent, picks, fret]) => ({
    copedent,
    notes: picks.map(([at, by]) => copedent.strings[at % copedent.strings.length]!.openMidi + by + fret),
  }));

describe("candidate places", () => {
  it("lays out the 288 sets that feet and knees can hold", () => {
    const laidOut = neck.sets.map((set) => [...set.ids].sort().join("+")).sort();
    expect(laidOut).toEqual(ALL_SETS.map((set) => [...set].sort().join("+")).sort());
  });

  it("finds exactly what trying everything finds, on E9", () => {
    fc.assert(
      fc.property(fc.oneof(chords, playable), (notes) => {
        expect(candidatePlaces(neck, notes).map(writePlace).sort()).toEqual(bruteForcePlaces(E9, notes, 24));
      }),
      { numRuns: 25 },
    );
  }, 30_000);

  it("finds exactly what trying everything finds, on any instrument", () => {
    let placeCount = 0;
    fc.assert(
      fc.property(anywhere, ({ copedent, notes }) => {
        const places = candidatePlaces(layOutNeck(copedent), notes).map(writePlace);
        placeCount += places.length;
        expect(new Set(places).size).toBe(places.length);
        expect(places.sort()).toEqual(bruteForcePlaces(copedent, notes, copedent.fretCount));
      }),
      { numRuns: 300 },
    );
    expect(placeCount).toBeGreaterThan(300);
  }, 30_000);

  it("sounds the notes asked for, within what feet and knees can do", () => {
    fc.assert(
      fc.property(playable, (notes) => {
        for (const { fret, changes, strings, notesMidi } of candidatePlaces(neck, notes)) {
          expect(strings.map((string) => effectiveMidi(E9, string, fret, changes))).toEqual([...notesMidi]);
          expect(fret).toBeGreaterThanOrEqual(0);
          expect(fret).toBeLessThanOrEqual(24);
          expect(new Set(strings).size).toBe(notes.length);
          const held = (ids: string[]) => changes.filter((id) => ids.includes(id)).length;
          expect(held(["A", "C"])).toBeLessThan(2);
          expect(held(["F", "E"])).toBeLessThan(2);
          expect(held(["D", "DD", "X"])).toBeLessThan(2);
        }
      }),
    );
  });

  it("moves every place by as many frets as the notes move semitones", () => {
    fc.assert(
      fc.property(playable, fc.integer({ min: 1, max: 12 }), (notes, up) => {
        const here = candidatePlaces(neck, notes, { maxFret: 24 - up });
        const there = candidatePlaces(
          neck,
          notes.map((note) => note + up),
        ).filter(({ fret }) => fret >= up);
        expect(there.map((place) => write({ ...place, fret: place.fret - up }))).toEqual(here.map(write));
      }),
    );
  });

  it("finds every printed position of one to three strings", () => {
    for (const { what, cells } of positions) {
      if (cells.length > 3 || new Set(cells.map(({ string }) => string)).size < cells.length) continue;
      if (new Set(cells.map(({ fret, changes }) => `${fret}${changes}`)).size > 1) continue;
      if (cells[0]?.changes.includes("A") && cells[0].changes.includes("C")) continue;
      const notes = cells.map(({ note }) => parsePitchName(note).midi ?? 0);
      const sought = candidatePlaces(neck, notes).filter(
        ({ fret, strings }) =>
          fret === cells[0]?.fret && strings.every((string, index) => string === cells[index]?.string),
      );
      const printed = cells[0]?.changes ?? [];
      expect(
        sought.some(({ changes }) => changes.every((id) => printed.includes(id))),
        what,
      ).toBe(true);
    }
  });

  /**
   * The calculated table counts frets 0 to 15 on A B C D E F V X with at most one lever beside the pedals and
   * no left-knee lever while the foot is on C. Both are costs here and not limits, so they are applied to the
   * candidates before counting.
   */
  it.each(counts.rows)(
    "counts $count places for $notes on frets 0 to 15",
    ({ notes, count, firstByFret }) => {
      const small = layOutNeck(withStages(E9, counts.stages));
      const midi = notes.map((name) => parsePitchName(name).midi ?? 0);
      const places = candidatePlaces(small, midi, { maxFret: counts.frets[1] }).filter(({ changes }) => {
        const levers = changes.filter((id) => !["A", "B", "C"].includes(id));
        const left = levers.some((id) => ["F", "E", "V"].includes(id));
        return levers.length <= 1 && !(left && changes.includes("C"));
      });
      expect(places).toHaveLength(count);
      expect(places.slice(0, firstByFret.length).map(({ fret }) => fret)).toEqual(
        firstByFret.map(({ fret }) => fret),
      );
      const written = places.map((place) =>
        write({ ...place, strings: [...place.strings].sort((a, b) => b - a) }),
      );
      for (const place of firstByFret) {
        expect(written).toContain(write({ ...place, strings: [...place.strings].sort((a, b) => b - a) }));
      }
    },
  );

  it("leaves nothing out for the hand's sake: four strings, and strings far apart", () => {
    expect(candidatePlaces(neck, [52, 56, 59, 64]).map(write)).toContain("0  on 8-6-5-4");
    // Strings 10 (B2, 47) and 1 (F#4, 66).
    expect(candidatePlaces(neck, [47, 66]).map(write)).toContain("0  on 10-1");
  });

  it("leaves a change out only where the strings are the same without it alone", () => {
    // By the rule of the net change: on a split string +1 and -1 give the open note, and neither can be left out alone.
    const moves = (id: string, place: number, by: number): Change => ({
      id,
      label: id,
      slot: { kind: "pedal", place },
      stages: [{ 1: by }],
    });
    const copedent: Copedent = {
      ...E9,
      strings: [{ number: 1, openMidi: 60 }],
      changes: [moves("P", 1, 1), moves("Q", 2, -1)],
      splits: [1],
      grips: [],
      fretCount: 0,
    };
    expect(candidatePlaces(layOutNeck(copedent), [60]).map(write)).toEqual(["0  on 1", "0 P+Q on 1"]);
    const unsplit = { ...copedent, splits: [] };
    expect(candidatePlaces(layOutNeck(unsplit), [60]).map(write)).toEqual(["0  on 1"]);
  });

  it("has no place for what lies outside the neck", () => {
    for (const notes of [[], [40], [100], [60, 60.5], [47, 48, 49, 50]])
      expect(candidatePlaces(neck, notes)).toEqual([]);
  });

  it("plays a unison on two strings", () => {
    // C raises string 4 from E to the F# of string 1, guitarlicks.net pedal-steel-guitar-basics.
    const unison = candidatePlaces(neck, [66, 66]);
    expect(unison.length).toBeGreaterThan(0);
    expect(unison.map(write)).toContain("0 C on 1-4");
    expect(new Set(unison.map(write)).size).toBe(unison.length);
  });
});
