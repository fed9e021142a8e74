import { describe, expect, it } from "vitest";
import { hearChanges } from "@/lib/hearing/changes";
import { CHORD_STATES } from "@/lib/hearing/chordVocabulary";
import { KEY_STATES } from "@/lib/hearing/keyStates";
import { cutAtBeats, type Stretches } from "@/lib/hearing/stretches";
import { evenBars, labelsIn, speakingFor, stateOf, sureOf, type Written } from "./score";

const C_MAJOR = 0;
const C_MINOR = 12;

/** State and beat of each chord heard. */
function heard(stretches: Stretches, likelihoods: Float64Array[], key = C_MAJOR): [number, number][] {
  const keys = sureOf(key, KEY_STATES.length, likelihoods.length);
  const { runs } = hearChanges(likelihoods, stretches, keys);
  return runs.map(({ state, from }) => [state, stretches.edgesSec[from]! * 2]);
}

function wanted(written: readonly Written[]): [number, number][] {
  return written.map(([beat, label]) => [stateOf(label), beat]);
}

describe("chords in bars", () => {
  it("come in an eighth ahead of the bar where they are pushed, and not where they are not", () => {
    const stretches = evenBars(16);
    const written: Written[] = [
      [0, "C:maj"],
      [3.5, "F:maj"],
      [8, "G:7"],
      [11.5, "C:maj"],
    ];
    expect(heard(stretches, speakingFor(labelsIn(stretches, written), 12))).toEqual(wanted(written));
  });

  it("come in ahead by the last third of a beat where beats have three parts", () => {
    const stretches = evenBars(16, 3);
    const written: Written[] = [
      [0, "C:maj"],
      [4 - 1 / 3, "F:maj"],
      [8, "C:maj"],
    ];
    const found = heard(stretches, speakingFor(labelsIn(stretches, written), 12));
    expect(found.map(([state]) => state)).toEqual(wanted(written).map(([state]) => state));
    found.forEach(([, beat], i) => {
      expect(beat).toBeCloseTo(written[i]![0], 9);
    });
  });

  it("do not change for a note that passes between two beats, nor for one beat of faint doubt", () => {
    const stretches = evenBars(16);
    const labels = labelsIn(stretches, [[0, "C:maj"]]);
    const likelihoods = speakingFor(labels, 6);
    // A passing chord sounds in the last half of beat 6, and a doubtful one on beat 10.
    likelihoods[13] = speakingFor(["G:maj"], 6)[0]!;
    likelihoods[20] = speakingFor(["A:min"], 1)[0]!;
    likelihoods[21] = speakingFor(["A:min"], 1)[0]!;
    expect(heard(stretches, likelihoods)).toEqual([[stateOf("C:maj"), 0]]);
  });

  it("hold chords of a single beat that sound clearly", () => {
    const stretches = evenBars(16);
    const written: Written[] = [
      [0, "C:maj"],
      [6, "D:min"],
      [7, "E:min"],
      [8, "F:maj"],
    ];
    expect(heard(stretches, speakingFor(labelsIn(stretches, written), 10))).toEqual(wanted(written));
  });

  it("begin on the bar when it is not clear which of two beats they begin on", () => {
    const stretches = evenBars(16);
    const likelihoods = speakingFor(
      labelsIn(stretches, [
        [0, "C:maj"],
        [8, "F:maj"],
      ]),
      8,
    );
    for (const i of [14, 15, 16, 17]) {
      likelihoods[i] = new Float64Array(CHORD_STATES.length);
      likelihoods[i]![stateOf("C:maj")] = 4;
      likelihoods[i]![stateOf("F:maj")] = 4;
    }
    expect(heard(stretches, likelihoods)).toEqual(
      wanted([
        [0, "C:maj"],
        [8, "F:maj"],
      ]),
    );
  });

  it("last however long they are held", () => {
    const stretches = evenBars(96);
    expect(heard(stretches, speakingFor(labelsIn(stretches, [[0, "C:maj"]]), 3))).toEqual([
      [stateOf("C:maj"), 0],
    ]);
  });
});

describe("chords in a key", () => {
  it("are what the key suggests where the sound leaves it open", () => {
    const stretches = evenBars(12);
    const labels = labelsIn(stretches, [
      [0, "C:maj"],
      [4, "N"],
      [8, "C:maj"],
    ]);
    const open = speakingFor(labels, 10).map((row, i) => {
      if (labels[i] !== "N") return row;
      const even = new Float64Array(CHORD_STATES.length);
      for (const label of ["F:maj", "F:min"]) even[stateOf(label)] = 10;
      return even;
    });
    // IV is large in major and small in minor: the scales of the two keys.
    expect(heard(stretches, open, C_MAJOR)[1]).toEqual([stateOf("F:maj"), 4]);
    const minor = open.map((row) => {
      const turned = Float64Array.from(row);
      turned[stateOf("C:min")] = row[stateOf("C:maj")]!;
      turned[stateOf("C:maj")] = 0;
      return turned;
    });
    expect(heard(stretches, minor, C_MINOR)[1]).toEqual([stateOf("F:min"), 4]);
  });

  it("follow a dominant seventh by its tonic where another chord would be nearer the sound", () => {
    const stretches = evenBars(8);
    const second = (first: string): number => {
      const likelihoods = speakingFor(labelsIn(stretches, [[0, first]]), 20);
      const open = likelihoods.length - 8;
      for (let i = 8; i < likelihoods.length; i++) {
        likelihoods[i] = new Float64Array(CHORD_STATES.length);
        likelihoods[i]![stateOf("A:min")] = 20;
        likelihoods[i]![stateOf("D:min")] = 20 + 1.2 / open;
      }
      return heard(stretches, likelihoods)[1]![0];
    };
    // E7 is the dominant of A minor; C leads to neither of the two.
    expect(second("E:7")).toBe(stateOf("A:min"));
    expect(second("C:maj")).toBe(stateOf("D:min"));
  });

  it("are less sure than their evidence taken at its word, and the surer the more there is", () => {
    const stretches = evenBars(8);
    const sure = (nats: number): number => {
      const { runs } = hearChanges(
        speakingFor(labelsIn(stretches, [[0, "C:maj"]]), nats),
        stretches,
        sureOf(C_MAJOR, KEY_STATES.length, stretches.starts.length),
      );
      return runs[0]!.confidence;
    };
    // At its word, 16 stretches of 2 nats against 120 others leave a doubt of less than one in a million.
    expect(sure(2)).toBeLessThan(0.99);
    expect(sure(4)).toBeGreaterThan(sure(2));
    expect(sure(40)).toBeGreaterThan(0.95);
  });
});

describe("the cuts between beats", () => {
  it("lie in the middle, or after two thirds, and belong to the beat they lead to", () => {
    const even = cutAtBeats([1, 2, 3], null, 4);
    expect(even.edgesSec).toEqual([0, 1, 1.5, 2, 2.5, 3, 4]);
    expect(even.beatOf).toEqual([-1, 0, 1, 1, 2, 2, 3]);
    const swung = cutAtBeats([1, 2, 3], null, 4, 3);
    expect(swung.edgesSec.map((edge) => Math.round(edge * 1000))).toEqual([
      0, 1000, 1667, 2000, 2667, 3000, 4000,
    ]);
  });
});
