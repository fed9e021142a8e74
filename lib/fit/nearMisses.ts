import type { Midi, Semitones } from "@/lib/units/quantities";

/** How a near miss differs from a guess. */
export type Difference =
  /** One note, or where `midi` is null all of them, stands elsewhere. */
  | { kind: "moved"; midi: Midi | null; by: Semitones }
  /** The top or bottom note is left out. */
  | { kind: "without"; midi: Midi; which: "top" | "bottom" }
  /** One more note. */
  | { kind: "with"; midi: Midi };

export interface NearMiss {
  /** Rising. */
  notesMidi: Midi[];
  change: Difference;
}

/** A half step, a whole step and an octave, both ways. */
const MOVES: readonly Semitones[] = [-1, 1, -2, 2, -12, 12];
/** An octave, a fifth, a third, above and below. */
const ADDED: readonly Semitones[] = [12, -12, 7, -7, 4, -4, 3, -3];

/**
 * The guesses nearest to some notes: each note a half step, a whole step or an octave off, all of them moved together,
 * the top or the bottom one missing, and one more an octave, a fifth or a third from one of them.
 * @param notesMidi rising, each once
 * @param isInReach whether a pitch can be weighed at all
 */
export function nearMisses(notesMidi: readonly Midi[], isInReach: (midi: Midi) => boolean): NearMiss[] {
  const found = new Map<string, NearMiss>();
  const add = (notes: readonly Midi[], change: Difference) => {
    const rising = [...new Set(notes)].sort((a, b) => a - b);
    const key = rising.join();
    if (rising.every(isInReach) && key !== notesMidi.join() && !found.has(key))
      found.set(key, { notesMidi: rising, change });
  };
  for (const by of MOVES)
    add(
      notesMidi.map((midi) => midi + by),
      { kind: "moved", midi: null, by },
    );
  if (notesMidi.length > 1) {
    add(notesMidi.slice(0, -1), { kind: "without", midi: notesMidi.at(-1)!, which: "top" });
    add(notesMidi.slice(1), { kind: "without", midi: notesMidi[0]!, which: "bottom" });
  }
  for (const midi of notesMidi) {
    for (const by of MOVES) {
      if (notesMidi.length === 1 || notesMidi.includes(midi + by)) continue;
      add([...notesMidi.filter((other) => other !== midi), midi + by], { kind: "moved", midi, by });
    }
    for (const by of ADDED) {
      if (!notesMidi.includes(midi + by)) add([...notesMidi, midi + by], { kind: "with", midi: midi + by });
    }
  }
  return [...found.values()];
}
