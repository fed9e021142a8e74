/** Invented progressions for the repository's own recordings. */
export interface OwnSong {
  id: string;
  group: "straight" | "waltz" | "detuned" | "two-homes";
  bpm: number;
  beatsPerBar: number;
  /** How far everything pitched stands from A4 = 440 Hz. */
  tuningCents: number;
  /** Each home with how many of the bars it lasts. */
  homes: { tonic: string; mode: "major" | "minor"; bars: number }[];
  /** Bar by bar the chords in it, of equal lengths, in Harte syntax. */
  bars: string[][];
}

export const OWN_SONGS: readonly OwnSong[] = [
  {
    id: "own-1",
    group: "straight",
    bpm: 104,
    beatsPerBar: 4,
    tuningCents: 0,
    homes: [{ tonic: "G", mode: "major", bars: 8 }],
    bars: [
      ["G:maj"],
      ["C:maj"],
      ["G:maj", "D:maj"],
      ["E:min"],
      ["C:maj", "A:min"],
      ["D:7"],
      ["G:maj", "C:maj"],
      ["G:maj"],
    ],
  },
  {
    id: "own-2",
    group: "waltz",
    bpm: 126,
    beatsPerBar: 3,
    tuningCents: 0,
    homes: [{ tonic: "A", mode: "minor", bars: 12 }],
    bars: [
      ["A:min"],
      ["A:min"],
      ["D:min"],
      ["E:7"],
      ["A:min"],
      ["F:maj"],
      ["C:maj"],
      ["G:maj"],
      ["F:maj"],
      ["D:min"],
      ["E:7"],
      ["A:min"],
    ],
  },
  {
    id: "own-3",
    group: "detuned",
    bpm: 92,
    beatsPerBar: 4,
    tuningCents: -23,
    homes: [{ tonic: "Bb", mode: "major", bars: 8 }],
    bars: [
      ["Bb:maj"],
      ["Eb:maj"],
      ["Bb:maj/3", "C:min"],
      ["F:7"],
      ["G:min"],
      ["Eb:maj", "F:maj"],
      ["Bb:maj"],
      ["F:7", "Bb:maj"],
    ],
  },
  {
    id: "own-4",
    group: "two-homes",
    bpm: 138,
    beatsPerBar: 4,
    tuningCents: 12,
    homes: [
      { tonic: "D", mode: "major", bars: 8 },
      { tonic: "E", mode: "major", bars: 8 },
    ],
    bars: [
      ...[["D:maj"], ["G:maj"], ["A:7"], ["D:maj"], ["B:min"], ["G:maj"], ["A:7"], ["D:maj"]],
      ...[["E:maj"], ["A:maj"], ["B:7"], ["E:maj"], ["C#:min"], ["A:maj"], ["B:7"], ["E:maj"]],
    ],
  },
];
