/** How a band plays a bar. */
export type Groove = "two-beat" | "held" | "waltz" | "six-eight" | "shuffle";

export interface OwnSection {
  /** Sections with one label are the same music. */
  label: string;
  home: { tonic: string; mode: "major" | "minor" };
  /**
   * Bar by bar the chords in it, of equal lengths, in Harte syntax; then, each after a `^`, the MIDI numbers of what
   * the bass plays on the last beats of the bar.
   */
  bars: readonly string[];
}

/** A song of our own: an invented progression, and how it is played. */
export interface OwnSong {
  id: string;
  bpm: number;
  /** Where the tempo has come to at the end; the same where missing. */
  bpmAtEnd?: number;
  beatsPerBar: number;
  /** Parts of a beat. */
  division: 2 | 3;
  /** How far everything pitched stands from A4 = 440 Hz. */
  tuningCents: number;
  groove: Groove;
  /** Guitar, bass and steel alone. */
  drumless?: boolean;
  /** Chords rolled out without a beat, before the band comes in. */
  freeIntro?: readonly { label: string; lengthSec: number }[];
  sections: readonly OwnSection[];
}

const G = { tonic: "G", mode: "major" } as const;
const A_MINOR = { tonic: "A", mode: "minor" } as const;
const D = { tonic: "D", mode: "major" } as const;
const E = { tonic: "E", mode: "major" } as const;
const B_FLAT = { tonic: "Bb", mode: "major" } as const;
const A = { tonic: "A", mode: "major" } as const;
const E_FLAT = { tonic: "Eb", mode: "major" } as const;
const F = { tonic: "F", mode: "major" } as const;
const F_SHARP_MINOR = { tonic: "F#", mode: "minor" } as const;

const WALKING_VERSE: OwnSection = {
  label: "A",
  home: G,
  bars: ["G:maj", "G:maj ^43 ^45 ^47", "C:maj", "D:7 ^38 ^40 ^42", "G:maj", "D:7", "G:maj C:maj", "G:maj"],
};
const TURNED_VERSE: OwnSection = {
  label: "A",
  home: B_FLAT,
  bars: ["Bb:maj", "F:maj/3", "G:min", "Eb:maj", "Bb:maj/5", "C:min", "F:7", "Bb:maj"],
};
const LEANING_VERSE: OwnSection = {
  label: "A",
  home: F_SHARP_MINOR,
  bars: ["F#:min7", "D:maj7", "A:maj", "E:7", "F#:min7", "B:min7", "C#:7", "F#:min"],
};

export const OWN_SONGS: readonly OwnSong[] = [
  {
    id: "two-beat",
    bpm: 112,
    beatsPerBar: 4,
    division: 2,
    tuningCents: 0,
    groove: "two-beat",
    sections: [
      WALKING_VERSE,
      { label: "B", home: G, bars: ["C:maj", "G:maj", "A:7", "D:7 ^38 ^40 ^42"] },
      WALKING_VERSE,
    ],
  },
  {
    id: "waltz",
    bpm: 132,
    beatsPerBar: 3,
    division: 2,
    tuningCents: 0,
    groove: "waltz",
    sections: [
      {
        label: "A",
        home: A_MINOR,
        bars: ["A:min", "A:min", "D:min", "E:7", "A:min", "F:maj", "E:7", "A:min"],
      },
      {
        label: "B",
        home: A_MINOR,
        bars: ["C:maj", "G:maj", "F:maj", "E:7 ^40 ^42 ^44"],
      },
      {
        label: "A",
        home: A_MINOR,
        bars: ["A:min", "A:min", "D:min", "E:7", "A:min", "F:maj", "E:7", "A:min"],
      },
    ],
  },
  {
    id: "six-eight",
    bpm: 63,
    bpmAtEnd: 65,
    beatsPerBar: 2,
    division: 3,
    tuningCents: 8,
    groove: "six-eight",
    sections: [
      { label: "A", home: D, bars: ["D:maj", "G:maj", "D:maj A:7", "D:maj"] },
      { label: "B", home: D, bars: ["B:min", "G:maj", "E:min", "A:7"] },
      { label: "A", home: D, bars: ["D:maj", "G:maj", "D:maj A:7", "D:maj"] },
    ],
  },
  {
    id: "shuffle",
    bpm: 118,
    beatsPerBar: 4,
    division: 3,
    tuningCents: 0,
    groove: "shuffle",
    sections: [
      {
        label: "A",
        home: A,
        bars: [
          "A:7",
          "D:7",
          "A:7",
          "A:7",
          "D:7",
          "D:7",
          "A:7",
          "A:7 ^45 ^44 ^42",
          "E:7",
          "D:7",
          "A:7",
          "E:7",
        ],
      },
    ],
  },
  {
    id: "two-homes",
    bpm: 138,
    beatsPerBar: 4,
    division: 2,
    tuningCents: 12,
    groove: "two-beat",
    sections: [
      {
        label: "A",
        home: D,
        bars: ["D:maj", "G:maj", "A:7", "D:maj", "B:min", "G:maj", "A:7", "D:maj"],
      },
      {
        label: "A",
        home: E,
        bars: ["E:maj", "A:maj", "B:7", "E:maj", "C#:min", "A:maj", "B:7", "E:maj"],
      },
    ],
  },
  {
    id: "inversions",
    bpm: 92,
    beatsPerBar: 4,
    division: 2,
    tuningCents: -23,
    groove: "held",
    sections: [TURNED_VERSE, { label: "B", home: B_FLAT, bars: ["Eb:maj", "Bb:maj/3", "C:min7", "F:7"] }],
  },
  {
    id: "free-intro",
    bpm: 84,
    bpmAtEnd: 81,
    beatsPerBar: 4,
    division: 2,
    tuningCents: 0,
    groove: "held",
    freeIntro: [
      { label: "Ab:maj7", lengthSec: 2.9 },
      { label: "Bb:7", lengthSec: 2.2 },
      { label: "Eb:maj", lengthSec: 3.3 },
    ],
    sections: [
      { label: "A", home: E_FLAT, bars: ["Eb:maj", "C:min7", "Ab:maj", "Bb:sus4 Bb:7", "Eb:maj", "Ab:maj"] },
    ],
  },
  {
    id: "sevenths",
    bpm: 100,
    beatsPerBar: 4,
    division: 2,
    tuningCents: 0,
    groove: "two-beat",
    sections: [LEANING_VERSE, LEANING_VERSE],
  },
  {
    id: "drumless",
    bpm: 76,
    bpmAtEnd: 73,
    beatsPerBar: 4,
    division: 2,
    tuningCents: 31,
    groove: "held",
    drumless: true,
    sections: [
      {
        label: "A",
        home: F,
        bars: ["F:maj", "F:aug", "Bb:maj6", "B:dim", "F:maj/5", "D:min7", "G:min7 C:sus4", "C:7", "F:maj"],
      },
    ],
  },
];
