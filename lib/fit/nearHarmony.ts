import { tonicName } from "@/lib/hearing/keyNames";
import { type Chord, formatHarte, parseHarte, type Shorthand } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { parsePitchName, spellPitchClass } from "@/lib/theory/spelling";
import { withinOctave } from "@/lib/units/pitch";
import type { Semitones } from "@/lib/units/quantities";

/** A half step, a whole step and a fourth or fifth, both ways. */
const ROOT_MOVES: readonly Semitones[] = [-1, 1, -2, 2, 5, 7];
/** The same chord with the other third, and with a note more or fewer (common practice, no source). */
const LIKE: Readonly<Partial<Record<Shorthand, readonly Shorthand[]>>> = {
  maj: ["min", "7", "maj7", "sus4"],
  min: ["maj", "min7", "dim"],
  "7": ["maj", "min7", "maj7", "sus4"],
  maj7: ["maj", "7", "min7"],
  min7: ["min", "7", "hdim7"],
  dim: ["min", "dim7", "hdim7"],
  sus4: ["maj", "sus2", "min"],
  sus2: ["maj", "sus4", "min"],
  maj6: ["maj", "7", "min6"],
  min6: ["min", "maj6", "min7"],
};
const MINOR: readonly (Shorthand | null)[] = ["min", "min7", "min6", "min9", "minmaj7"];

/** The chords nearest to one: of the same kind on near roots, of another kind on its root, its relative; as Harte labels. */
export function nearChords(chord: Chord): string[] {
  const { rootName, rootPitchClass, quality, extensions } = chord;
  const key: Key = { tonic: rootName, mode: "major" };
  const on = (root: number, kind: Shorthand | null, own = false) =>
    formatHarte({
      rootName: spellPitchClass(withinOctave(root), key),
      quality: kind,
      extensions: own ? [...extensions] : [],
      bass: "1",
    });
  const isMinor = MINOR.includes(quality);
  const found = [
    ...ROOT_MOVES.map((by) => on(rootPitchClass + by, quality, true)),
    ...(LIKE[quality ?? "1"] ?? ["maj", "min"]).map((kind) => on(rootPitchClass, kind)),
    isMinor ? on(rootPitchClass + 3, "maj") : on(rootPitchClass + 9, "min"),
  ];
  const sound = (label: string) => {
    const read = parseHarte(label)!;
    return `${read.rootPitchClass} ${read.pitchClasses.join()}`;
  };
  const own = `${rootPitchClass} ${chord.pitchClasses.join()}`;
  const bySound = new Map(found.map((label) => [sound(label), label]));
  bySound.delete(own);
  return [...bySound.values()];
}

/** The keys nearest to one: its relative, its neighbours by fifths, the other mode, and a half and a whole step off. */
export function nearKeys({ tonic, mode }: Key): Key[] {
  const root = parsePitchName(tonic).pitchClass;
  const other = mode === "major" ? "minor" : "major";
  const named = (pitchClass: number, of: Key["mode"]): Key => ({
    tonic: tonicName(pitchClass, of),
    mode: of,
  });
  return [
    named(mode === "major" ? root + 9 : root + 3, other),
    named(root, other),
    ...[7, 5, -1, 1, -2, 2].map((by) => named(root + by, mode)),
  ];
}
