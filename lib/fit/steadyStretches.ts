import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Midi, Seconds, Semitones } from "@/lib/units/quantities";
import type { GuessedNote } from "./Guess";

/** A part of a passage in which no note of a guess moves. */
export interface SteadyStretch extends HeardStretch {
  /** By the pitch with which notes begin: how far each of them has moved by then. Two may begin on one pitch and part. */
  moved: ReadonlyMap<Midi, readonly Semitones[]>;
}

/** A part shorter than this is passed over, where another is longer. */
const SHORTEST_SEC: Seconds = 0.12;

/** The parts of a passage between the glides of a guess; the whole passage where nothing glides, none where all of it does. */
export function steadyStretches(passage: HeardStretch, notes: readonly GuessedNote[]): SteadyStretch[] {
  const ways = notes.flatMap(({ glides = [] }) =>
    glides.map(({ atSec, durationSec }) => ({
      startSec: atSec - durationSec / 2,
      endSec: atSec + durationSec / 2,
    })),
  );
  const inside = ways.filter(
    ({ startSec, endSec }) => startSec < passage.endSec && endSec > passage.startSec,
  );
  const stretches: HeardStretch[] = [];
  let fromSec = passage.startSec;
  for (const way of inside.sort((a, b) => a.startSec - b.startSec)) {
    if (way.startSec > fromSec) stretches.push({ startSec: fromSec, endSec: way.startSec });
    fromSec = Math.max(fromSec, way.endSec);
  }
  if (fromSec < passage.endSec) stretches.push({ startSec: fromSec, endSec: passage.endSec });
  const length = ({ startSec, endSec }: HeardStretch) => endSec - startSec;
  const longest = Math.max(...stretches.map(length));
  const heard = stretches.filter((stretch) => length(stretch) >= Math.min(SHORTEST_SEC, longest));
  return heard.map((stretch) => ({ ...stretch, moved: movedBy(stretch, notes) }));
}

function movedBy(stretch: HeardStretch, notes: readonly GuessedNote[]): Map<Midi, Semitones[]> {
  const middle = (stretch.startSec + stretch.endSec) / 2;
  const moved = new Map<Midi, Semitones[]>();
  for (const { midi, glides = [] } of notes) {
    const last = glides.filter(({ atSec }) => atSec < middle).at(-1);
    moved.set(midi, [...(moved.get(midi) ?? []), last ? last.toMidi - midi : 0]);
  }
  return moved;
}
