import { describe, expect, it } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import { NOTES_EAR_NOTE_MAPS } from "@/lib/hearing/learned/layout";
import { hearNotes } from "@/lib/hearing/notes/hearNotes";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { type Drawn, drawnMaps, steady } from "./handMadeMaps";

const FRAMES = 160;
const stroke = [0.5, 0.97, 0.6];

/** A note that is surely the steel's. */
function steelNote(midi: number, frame: number): Drawn[] {
  const at = { midi, frame };
  return [
    { map: "onset", ...at, frame: frame - 1, values: stroke },
    { map: "steelOnset", ...at, frame: frame - 1, values: stroke },
    { map: "frame", ...at, values: steady(0.95, 40) },
    { map: "steel", ...at, values: steady(0.97, 40) },
  ];
}

/** A steel that plays throughout, so that there is no doubt that one does; its third note is the one looked at. */
const LINE: Drawn[] = [
  ...steelNote(71, 2),
  ...steelNote(69, 20),
  ...steelNote(64, 40),
  ...steelNote(69, 85),
  ...steelNote(71, 120),
];

const bandStroke = (midi: number, frame: number): Drawn => ({
  map: "bandOnset",
  midi,
  frame: frame - 1,
  values: stroke,
});

function heard(drawn: Drawn[]) {
  const maps = drawnMaps(FRAMES, drawn, NOTES_EAR_NOTE_MAPS);
  const signal = Signal.of(new Float32Array(4 * HEARING_RATE_HZ), HEARING_RATE_HZ);
  return hearNotes({ maps, signal, tuningCents: 0 }).map((note) => ({
    midi: Math.round(note.midi),
    steel: isSteel(note),
  }));
}

describe("what steel and band strike together", () => {
  it("is two notes where the band strikes the chord, and this note of it again later", () => {
    const chord = [52, 55, 59, 64, 67].flatMap((midi) => [bandStroke(midi, 40), bandStroke(midi, 80)]);
    const notes = heard([...LINE, ...chord]).filter(({ midi }) => midi === 64);
    expect(notes.map(({ steel }) => steel).sort()).toEqual([false, true]);
  });

  it("is one where the band strikes other notes", () => {
    const chord = [52, 55, 59].flatMap((midi) => [bandStroke(midi, 40), bandStroke(midi, 80)]);
    expect(heard([...LINE, ...chord]).filter(({ midi }) => midi === 64)).toEqual([{ midi: 64, steel: true }]);
  });
});
