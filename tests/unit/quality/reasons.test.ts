import { describe, expect, it } from "vitest";
import { barsReason, meterReason } from "../../quality/reasons/bars";
import { bassReason } from "../../quality/reasons/bass";
import { beatsReason, tempoReason } from "../../quality/reasons/beats";
import { chordsReason, confusion, segmentsReason } from "../../quality/reasons/chords";
import { homesReason, keyReason, relation } from "../../quality/reasons/homes";
import { sectionsReason } from "../../quality/reasons/sections";
import { tuningReason } from "../../quality/reasons/tuning";
import { beats, chord, home, prediction } from "./hearings";

const grid = (told: { timeSec: number; inBar: number }[], beatsPerBar = 4) =>
  prediction({
    grid: {
      ...{ beats: told, tempoBpm: 120, beatsPerBar, division: 2 as const, freeStretches: [] },
      ...{ beatsConfidence: 1, barsConfidence: 1 },
    },
  });
const span = (startSec: number, endSec: number, label: string) => ({ startSec, endSec, label });

describe("reasons", () => {
  it("tell at which level, on which side and how late beats are told", () => {
    const truth = { beats: beats(40, 1, 0.5), tempoBpm: 120 };
    expect(beatsReason(truth, grid(beats(20, 1, 1)))).toBe("beats at half the tempo");
    expect(beatsReason(truth, grid(beats(79, 1, 0.25)))).toBe("beats at twice the tempo");
    expect(beatsReason(truth, grid(beats(14, 1, 1.5)))).toBe("beats at a third of the tempo");
    expect(beatsReason(truth, grid(beats(118, 1, 0.5 / 3)))).toBe("beats at three times the tempo");
    expect(beatsReason(truth, grid(beats(59, 1, 1 / 3)))).toBe("three beats for two");
    expect(beatsReason(truth, grid(beats(27, 1, 0.75)))).toBe("two beats for three");
    expect(beatsReason(truth, grid(beats(40, 1.25, 0.5)))).toBe("beats between the beats");
    expect(beatsReason(truth, grid(beats(40, 1.1, 0.5)))).toBe("beats 100 ms late");
    const torn = [...beats(10, 1, 0.5), ...beats(20, 11, 0.5)];
    expect(beatsReason(truth, grid(torn))).toBe(
      "10 of 40 beats missed, 10 in a row from 6.0 s to 10.5 s; 0 told that are not marked",
    );
    expect(tempoReason({ tempoBpm: 60 }, grid([]))).toBe("120.0 for 60.0 beats a minute (2.00 times)");
  });

  it("tell where in the bar downbeats are told", () => {
    const truth = { beats: beats(40, 0, 0.5), beatsPerBar: 4 };
    expect(barsReason(truth, grid(beats(40, 0, 0.5, 4, 4)))).toBe("downbeats a beat late");
    expect(barsReason(truth, grid(beats(40, 0, 0.5, 4, 2)))).toBe("downbeats a beat early");
    expect(barsReason(truth, grid(beats(40, 0, 0.5, 4, 3)))).toBe("downbeats half a bar off");
    expect(barsReason(truth, grid(beats(40, 0, 0.5, 3), 3))).toBe("bars of 3 beats where they have 4");
    expect(barsReason(truth, grid(beats(20, 0, 1)))).toBe("the beats are not right: beats at half the tempo");
    const slipped = [...beats(20, 0, 0.5), ...beats(20, 10, 0.5, 4, 4)];
    expect(barsReason(truth, grid(slipped))).toBe(
      "20 of 40 beats stand elsewhere in the bar, from 10.0 s on (there downbeats a beat late)",
    );
    expect(meterReason({ beatsPerBar: 3 }, grid([]))).toBe("bars of 4 beats where they have 3");
  });

  it("tell how a key or home is taken for another", () => {
    const g = { tonic: "G", mode: "major" };
    expect(relation(g, { tonic: "E", mode: "minor" })).toBe("relative key");
    expect(relation({ tonic: "E", mode: "minor" }, g)).toBe("relative key");
    expect(relation(g, { tonic: "G", mode: "minor" })).toBe("parallel key");
    expect(relation(g, { tonic: "D", mode: "major" })).toBe("key a fifth above");
    expect(relation(g, { tonic: "C", mode: "major" })).toBe("key a fifth below");
    expect(relation(g, { tonic: "Ab", mode: "major" })).toBe("key a semitone above");
    const told = prediction({ homes: [home(0, 20, "E", "minor")] });
    expect(keyReason({ key: g }, told)).toBe("relative key: E minor for G major");
    const homes = [home(0, 12, "G"), home(12, 20, "A")];
    expect(homesReason({ homes }, prediction())).toBe(
      "0 changes of key told where there is 1; 8.0 s other key (G major for A major)",
    );
  });

  it("tell what chords are taken for", () => {
    expect(confusion("G:7", "G:maj")).toBe("sevenths heard as major");
    expect(confusion("A:min7", "A:min")).toBe("minor sevenths heard as minor");
    expect(confusion("A:min", "C:maj")).toBe("relative chord");
    expect(confusion("C:maj", "A:min")).toBe("relative chord");
    expect(confusion("C:maj", "G:maj")).toBe("chord a fifth above");
    expect(confusion("C:maj/3", "C:maj")).toBe("inversions not heard");
    expect(confusion("C:maj", "C:maj/5")).toBe("inversions made up");
    expect(confusion("N", "C:maj")).toBe("a chord heard where there is none");
    expect(confusion("C:maj", "N")).toBe("no chord heard where there is one");
    const chords = [span(0, 8, "G:7"), span(8, 14, "C:maj"), span(14, 20, "A:min")];
    const told = prediction({ chords: [chord(0, 8.5, "G:maj"), chord(8.5, 20, "C:maj")] });
    expect(chordsReason("sevenths", { chords }, told)).toBe(
      "14.5 s wrong: 8.0 s sevenths heard as major; 6.0 s relative chord",
    );
    expect(chordsReason("majmin", { chords }, told)).toBe(
      "6.5 s wrong: 6.0 s relative chord; 0.5 s changes heard late",
    );
    expect(segmentsReason({ chords }, told)).toBe(
      "overlong changes: 2 told where there are 3; they stand 500 ms late",
    );
    const late = prediction({
      chords: [chord(0, 8.1, "G:7"), chord(8.1, 14.4, "C:maj"), chord(14.4, 20, "A:min")],
    });
    expect(segmentsReason({ chords }, late)).toBe(
      "changes at other times: 1 of 2 within 150 ms; they stand 250 ms late",
    );
    const cut = [0, 5, 10, 15].map((at, i) => chord(at, at + 5, i % 2 === 0 ? "G:maj" : "D:maj"));
    expect(segmentsReason({ chords: [span(0, 20, "G:maj")] }, prediction({ chords: cut }))).toBe(
      "changes cut up: 4 told where there are 1",
    );
  });

  it("tell what becomes of the bass's notes, the sections and the tuning", () => {
    const note = (startSec: number, midi: number) => ({
      ...{ startSec, endSec: startSec + 0.5, midi, role: "bass" },
      kind: "attack" as const,
    });
    const heard = (startSec: number, midi: number) => ({
      startSec,
      endSec: startSec + 0.5,
      midi,
      confidence: 1,
    });
    const bass = [note(1, 40), note(2, 43), note(3, 45), note(4, 47)];
    const told = prediction({ bass: [heard(1, 40), heard(2, 55), heard(3.1, 45)] });
    expect(bassReason({ bass }, told)).toBe(
      "3 of 4 notes not found (1 in another octave; 1 late); 2 told that are not played so",
    );
    const section = (startSec: number, endSec: number, label: string) => ({
      ...{ startSec, endSec, label, transposedSemitones: 0, confidence: 1 },
    });
    const sections = [span(0, 12, "verse"), span(12, 20, "chorus")];
    expect(sectionsReason({ sections }, prediction({ sections: [section(0, 20, "A")] }))).toBe(
      "1 section told where there are 2; 8.0 s of chorus heard as more of verse",
    );
    expect(tuningReason({ tuningCents: 45 }, prediction({ tuningCents: -45 }))).toBe(
      "heard 10.0 cents too sharp (-45.0 for 45.0)",
    );
  });
});
