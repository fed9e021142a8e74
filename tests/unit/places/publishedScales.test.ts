import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import type { Place } from "@/lib/places/Place";
import type { PartLocks } from "@/lib/places/PlaceLocks";
import { placeSequence } from "@/lib/places/placeSequence";
import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import harmonised from "../../fixtures/steel/harmonisedScales.json";
import positions from "../../fixtures/steel/positions.json";

const TONICS = ["E", "F", "F#", "G", "Ab", "A", "Bb", "B", "C", "Db", "D", "Eb"];
const write = ({ fret, changes, strings }: Pick<Place, "fret" | "changes" | "strings">) =>
  `${fret}${[...changes].sort().join("")} on ${strings.join("-")}`;

/** The cheapest way to play notes one after the other. */
function cheapest(notes: readonly (readonly number[])[], key: Key, locks: PartLocks): string[] {
  const events = notes.map((notesMidi, at) => ({ startSec: at / 2, endSec: at / 2 + 0.5, notesMidi }));
  const { events: placed } = placeSequence(E9, events, { key, locks });
  return placed.map(({ candidates, chosenIndex }) => write(candidates[chosenIndex!]!));
}

/**
 * The harmonised scales of pairs of strings: calculated from the tuning; the same two families are in a published
 * fretboard reference (abcdocz.com/doc/127526, J. Leite). Locked is the pair of strings alone, as a player asks for it.
 */
describe("harmonised scales come back as the cheapest way on their strings", () => {
  for (const { strings, kind, cells } of harmonised.scales) {
    it(`strings ${strings.join(" and ")}, ${kind}, in every key that the frets allow`, () => {
      const highest = Math.max(...cells.map(({ fretsAboveHome }) => fretsAboveHome));
      for (let home = 0; home + highest <= E9.fretCount; home += 1) {
        const there = cells.map(({ fretsAboveHome, changes }) => ({
          fret: home + fretsAboveHome,
          changes,
          strings,
        }));
        const notes = there.map(({ fret, changes }) =>
          strings.map((string) => effectiveMidi(E9, string, fret, changes)!),
        );
        const key = { tonic: TONICS[home % 12]!, mode: "major" as const };
        expect(cheapest(notes, key, { grip: strings }), `home at fret ${home}`).toEqual(there.map(write));
      }
    });
  }
});

/** Lessons that play a scale in one position (howcast.com lessons, larrybell.org: see the fixture). */
describe("scales of single notes come back as taught", () => {
  it.each([
    ["G major scale, open position", "G", {}],
    ["G major scale, pedals-down position", "G", { frets: { from: 10, to: 10 } }],
    ["E major scale on open strings, start", "E", { frets: { from: 0, to: 0 } }],
  ])("%s", (what, tonic, locks) => {
    const { cells } = positions.find((each) => each.what === what)!;
    const notes = cells.map(({ note }) => [parsePitchName(note).midi!]);
    const taught = cells.map(({ string, fret, changes }) => write({ fret, changes, strings: [string] }));
    expect(cheapest(notes, { tonic, mode: "major" }, locks)).toEqual(taught);
  });
});
