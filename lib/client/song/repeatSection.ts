import type { CopiedStretches } from "@/lib/document/commands/runs";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { BeatGrid } from "@/lib/notation/barGrid";
import { repeatBars } from "@/lib/notation/repeatBars";
import { formatHarte, parseHarte } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { parsePitchName, spellPitchClass } from "@/lib/theory/spelling";
import type { Seconds, Semitones } from "@/lib/units/quantities";

interface Stretch {
  startSec: Seconds;
  endSec: Seconds;
}

/** The last moment of a section tells where its last bar falls. */
const LAST_SEC: Seconds = 0.1;

/** What a section takes over from another. */
export interface RepeatedSection {
  copies: CopiedStretches;
  /** The bars of it that the other has; beyond them nothing is taken over. */
  into: Stretch;
}

/** A section's changes and bass line as another that repeats it would have them, each in its own mark. */
export function repeatSection(
  song: Pick<SongSnapshot, "changes" | "bass">,
  grid: BeatGrid,
  {
    from,
    to,
    semitones,
    keyAt,
  }: { from: Stretch; to: Stretch; semitones: Semitones; keyAt: (timeSec: Seconds) => Key },
): RepeatedSection {
  const there = repeatBars(grid, from, to);
  const within = <S extends Stretch>(list: readonly S[]) =>
    list.flatMap((each) => {
      const startSec = Math.max(each.startSec, from.startSec);
      const endSec = Math.min(each.endSec, from.endSec);
      const placed = endSec - startSec > 0.02 ? there({ startSec, endSec }) : null;
      return placed && placed.endSec - placed.startSec > 0.02 ? [{ ...each, ...placed }] : [];
    });
  const end = there({ startSec: from.endSec - LAST_SEC, endSec: from.endSec });
  const into = { startSec: to.startSec, endSec: Math.min(to.endSec, end?.endSec ?? to.endSec) };
  const copies = {
    changes: within(song.changes).map(({ startSec, endSec, label, mark }) => ({
      startSec,
      endSec,
      label: moveChord(label, semitones, keyAt(startSec)),
      mark,
    })),
    bass: within(song.bass).map(({ startSec, endSec, midi, mark }) => ({
      startSec,
      endSec,
      midi: Math.min(127, Math.max(0, midi + semitones)),
      mark,
    })),
  };
  return { copies, into };
}

/** A chord as many half steps higher, spelled for a key; as it is where it is not moved. */
export function moveChord(label: string, semitones: Semitones, key: Key): string {
  const chord = parseHarte(label);
  if (chord === null || semitones % 12 === 0) return label;
  const { pitchClass } = parsePitchName(chord.rootName);
  return formatHarte({ ...chord, rootName: spellPitchClass((pitchClass + semitones + 24) % 12, key) });
}

/**
 * By how many half steps a section lies above another: as their names say where they say different, else as their homes do.
 * @param keyAt home at a time; null where it is kept from who looks, and then says nothing
 * @returns -5 to 6
 */
export function movedBetween(
  from: { startSec: Seconds; transposedSemitones: Semitones },
  to: { startSec: Seconds; transposedSemitones: Semitones },
  keyAt: (timeSec: Seconds) => Key | null,
): Semitones {
  const said = to.transposedSemitones - from.transposedSemitones;
  const [keyThere, keyHere] = [from, to].map(({ startSec }) => keyAt(startSec + 0.05));
  const tonic = (key: Key) => parsePitchName(key.tonic).pitchClass;
  const byHome = keyThere && keyHere ? tonic(keyHere) - tonic(keyThere) : 0;
  const semitones = said !== 0 ? said : byHome;
  return ((((semitones + 5) % 12) + 12) % 12) - 5;
}
