import { describe, expect, it } from "vitest";
import { noteTrace, traceMidiAt } from "@/lib/client/song/noteTrace";
import type { PassageNote } from "@/lib/client/song/passageMoments";
import { placePassage } from "@/lib/client/song/placePassage";
import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { GlideKind } from "@/lib/hearing/Hearing";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { PartEvent } from "@/lib/notation/PartEvent";
import { textTab } from "@/lib/notation/textTab";
import { playPart } from "@/lib/synth/playPart";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { demoTruth } from "@/prisma/demo/demoTruth";

const G = { tonic: "G", mode: "major" } as const;
const STAMP = { madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0, confidence: null };

const note = (
  startSec: number,
  endSec: number,
  midi: number,
  ...glides: PassageNote["glides"]
): PassageNote => ({
  ...{ startSec, endSec, midi, glides, confidence: 0.9 },
});
const glide = (toMidi: number, atSec: number, kind: GlideKind = "pedal") => ({
  ...{ kind, toMidi, atSec, durationSec: 0.1 },
});
const chord = (startSec: number, endSec: number, label: string): ShownChange => ({
  ...STAMP,
  ...{ id: label, mark: "ink", startSec, endSec, label, guesses: [], stretch: 0 },
  ...{ writtenStartSec: startSec, writtenEndSec: endSec },
});
const written = (event: PartEventFields, id = "w"): ShownPart => ({
  ...STAMP,
  ...{ id, part: "part", mark: "ink", ...event, writtenEndSec: event.endSec, writtenStrings: event.strings },
});
const place = (notes: PassageNote[], around: Partial<Parameters<typeof placePassage>[2]> = {}) =>
  placePassage(E9, notes, { key: G, changes: [], kept: [], ...around });
const say = ({ startSec, endSec, strings, fret, changes, articulation }: PartEventFields) =>
  `${startSec.toFixed(2)} to ${endSec.toFixed(2)}: ${articulation} ${fret}${changes.join("")} on ${strings.join("-")}`;
const first = (notes: PassageNote[], around: Partial<Parameters<typeof placePassage>[2]> = {}) =>
  place(notes, around).ways[0]!.events.map(say);
const withIds = (events: readonly PartEventFields[]): PartEvent[] =>
  events.map((event, index) => ({ id: `${index}`, ...event }));

/** A note that was played, as an ear that hears all would tell it. */
function heard({ startSec, endSec, pitch }: SteelNote, part: readonly PartEvent[]): PassageNote {
  const glides = pitch.slice(1).flatMap((to, index) => {
    const from = pitch[index]!;
    if (to.midi === from.midi) return [];
    const event = part.find((each) => Math.abs(each.startSec - from.timeSec) < 1e-6);
    const kinds: Record<string, GlideKind> = { press: "pedal", release: "pedal", slide: "bar" };
    const kind = kinds[event?.articulation ?? ""] ?? "unsure";
    const durationSec = to.timeSec - from.timeSec;
    return [{ kind, toMidi: to.midi, atSec: (from.timeSec + to.timeSec) / 2, durationSec }];
  });
  return { startSec, endSec, midi: pitch[0]!.midi, glides, confidence: 0.9 };
}

describe("the demo's steel, from its notes alone", () => {
  const { part, key, changes } = demoTruth();
  const notes = playPart(part, E9).map((each) => heard(each, part));
  const chords = changes.map(({ startSec, endSec, label }) => chord(startSec, endSec, label));
  const placed = place(notes, { key, changes: chords });

  it("comes to events that sound just these notes again, on every way", () => {
    expect(placed.leftOutCount).toBe(0);
    expect(placed.ways.length).toBeGreaterThan(1);
    const path = ({ startSec, endSec, midi, glides }: PassageNote) => {
      const trace = noteTrace({ startSec, endSec, midi, glides });
      const times = Array.from({ length: 9 }, (_, nth) => startSec + ((endSec - startSec) * (nth + 0.5)) / 9);
      return [startSec, endSec, ...times.map((timeSec) => traceMidiAt(trace, timeSec))];
    };
    const byStart = (list: PassageNote[]) =>
      [...list].sort((a, b) => a.startSec - b.startSec || a.midi - b.midi);
    const wanted = byStart(notes).map(path);
    for (const { events } of placed.ways) {
      const again = playPart(withIds(events), E9).map((each) => heard(each, withIds(events)));
      expect(again).toHaveLength(notes.length);
      byStart(again)
        .map(path)
        .forEach((values, index) => {
          // Between two pitches the hand may take another time than it took; before and after it is the same note.
          const away = values.map((value, at) => Math.abs(value - wanted[index]![at]!));
          expect(away.slice(0, 3).every((each) => each < 1e-6)).toBe(true);
          expect(away.filter((each) => each > 0.01).length).toBeLessThanOrEqual(3);
          expect(away.at(-1)).toBeLessThan(0.01);
        });
    }
  });

  it("lies as it was played wherever that is the easiest: the first bar and a half, and most of the rest", () => {
    const events = placed.ways[0]!.events.map(say);
    const truth = part.map((event) => say(event));
    expect(events.slice(0, 5)).toEqual(truth.slice(0, 5));
    expect(events.filter((each) => truth.includes(each)).length).toBeGreaterThan(truth.length / 2);
  });

  it("walks through ways that lie elsewhere, from easy to hard", () => {
    const costs = placed.ways.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    const texts = placed.ways.map(({ events }) => events.map(say).join());
    expect(new Set(texts).size).toBe(texts.length);
  });
});

// At fret 3 of an E9 with the usual pedals string 4 is G4 (67) and string 5 D4 (62): see tests/unit/places/soundingOn.
describe("a heard passage as events of the part", () => {
  const home = written({
    startSec: -1,
    endSec: -0.5,
    strings: [4],
    fret: 3,
    changes: [],
    articulation: "pick",
  });
  const around = { kept: [home] };

  it("writes a pair once, and a pedal under its held voice as a press of both strings", () => {
    expect(first([note(0, 2, 62, glide(64, 1.05)), note(0.02, 2, 67)], around)).toEqual([
      "0.00 to 1.00: pick 3 on 4-5",
      "1.00 to 2.00: press 3A on 4-5",
    ]);
  });

  it("writes the bar as a slide, both ways at once as one, and a let-off pedal as a release", () => {
    const bar = [note(0, 2, 62, glide(64, 1.05, "bar")), note(0, 2, 67, glide(69, 1.09, "bar"))];
    expect(first(bar, around)).toEqual(["0.00 to 1.00: pick 3 on 4-5", "1.00 to 2.00: slide 5 on 4-5"]);
    const release = [note(0, 2, 64, glide(62, 1.05)), note(0, 2, 67)];
    expect(first(release, around)[1]).toBe("1.00 to 2.00: release 3 on 4-5");
  });

  it("lets strings that are picked apart ring into each other, each until it is stopped", () => {
    const rolled = [note(0, 2, 55), note(0.5, 2, 62, glide(64, 1.05)), note(1.5, 2, 67)];
    expect(first(rolled, around)).toEqual([
      "0.00 to 1.00: pick 3 on 8",
      "0.50 to 1.00: pick 3 on 5",
      "1.00 to 2.00: press 3A on 5-8",
      "1.50 to 2.00: pick 3A on 4",
    ]);
  });

  it("parts a stroke of which one string is picked again while the other rings on", () => {
    const repeated = [note(0, 2, 67), note(0, 1, 62), note(1, 2, 62)];
    expect(first(repeated, around)).toEqual([
      "0.00 to 1.00: pick 3 on 5",
      "0.00 to 2.00: pick 3 on 4",
      "1.00 to 2.00: pick 3 on 5",
    ]);
  });

  it("takes notes that are off for the nearest, and a glide within one for none", () => {
    expect(first([note(0, 1, 66.7, glide(67.2, 0.5)), note(0, 1, 62.3)], around)).toEqual([
      "0.00 to 1.00: pick 3 on 4-5",
    ]);
  });

  it("says of how many notes it could make nothing: off the neck, or too many for a hand", () => {
    const many = [55, 62, 67, 71].map((midi, index) => ({
      ...note(0, 1, midi),
      confidence: 0.9 - index / 10,
    }));
    expect(place(many, around).leftOutCount).toBe(1);
    expect(first(many, around)).toEqual(["0.00 to 1.00: pick 3 on 4-5-8"]);
    expect(place([note(0, 1, 30), note(0.5, 1, 67)], around)).toMatchObject({ leftOutCount: 1 });
    expect(place([note(0, 1, 30)], around)).toEqual({ ways: [], leftOutCount: 1 });
    expect(place([])).toEqual({ ways: [], leftOutCount: 0 });
  });

  it("is laid around what is written already, which is not written again", () => {
    const there = written({
      startSec: 0,
      endSec: 1,
      strings: [4, 5],
      fret: 3,
      changes: [],
      articulation: "pick",
    });
    const passage = [note(0, 2, 67), note(0, 2, 62, glide(64, 1.05))];
    expect(first(passage, { kept: [there] })).toEqual(["1.00 to 2.00: press 3A on 4-5"]);
    // Where the hand is known to go up the neck the note before it lies there too: at fret 8 string 5 is 67.
    const high = written({
      startSec: 1,
      endSec: 2,
      strings: [6],
      fret: 8,
      changes: [],
      articulation: "pick",
    });
    expect(first([note(0.7, 1, 67)], { kept: [high] })).toEqual(["0.70 to 1.00: pick 8 on 5"]);
  });

  it("goes into the text tab with the marks of the trade", () => {
    const passage = [
      note(0, 2, 67, glide(69, 1.55, "bar")),
      note(0, 2, 62, glide(64, 0.55), glide(62, 1.05), glide(64, 1.5, "bar")),
    ];
    const events = place(passage, around).ways[0]!.events;
    const grid = { beatsSec: [0, 0.5, 1, 1.5, 2], inBar: [1, 2, 3, 4, 1], beatsPerBar: 4 };
    const text = textTab({ title: "x", copedent: E9, key: G, grid, changes: [], part: withIds(events) });
    // `>` for pedals moved while the string rings, `/` for the bar (steelguitarforum.com Forum8/HTML/000824 and others).
    expect(text).toMatch(/^ 5 B +\|3=*>3A=*>3=*\/5=*/m);
    expect(text).not.toContain("Check");
  });
});
