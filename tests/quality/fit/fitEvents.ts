import type { ReferenceNote } from "@/lib/scoring/noteScore";
import type { Midi, Seconds } from "@/lib/units/quantities";
import type { Truth } from "../Subject";

/** What one player plays at one moment of an annotated record, and all that sounds meanwhile. */
export interface FitEvent {
  role: string;
  startSec: Seconds;
  endSec: Seconds;
  /** Rising, in whole semitones of the record's own tuning. */
  notesMidi: Midi[];
  /** Share of the passage for which each pitch sounds, whoever plays it. */
  soundingShare: ReadonlyMap<Midi, number>;
  /** Whether the notes got there by a glide. */
  glided: boolean;
}

/** Notes begun within this are one stroke. */
const STROKE_SEC = 0.05;
/** A note stays until others of the player arrive, less half of their glide. */
const BEFORE_ARRIVAL_SEC = 0.05;
/** After the middle of a glide the new pitch stands. */
const AFTER_ARRIVAL_SEC = 0.06;
const SHORTEST_SEC = 0.12;
const LONGEST_SEC = 2;
const LOWEST: Midi = 34;
const HIGHEST: Midi = 90;
const MOST_NOTES = 5;
/** How far a person's marks may stand off the annotated times. */
const JITTER_SEC = 0.03;

/** Every stroke and every arrival of a record that can be asked for, player by player, in order of time. */
export function fitEvents(notes: NonNullable<Truth["passage"]>["notes"]): FitEvent[] {
  // Strings of one guitar are annotated as roles of their own.
  const playerOf = ({ role }: ReferenceNote) => (/^string\d/.test(role) ? "guitar" : role);
  const players = [...new Set(notes.map(playerOf))];
  return players.flatMap((role) => {
    const own = notes.filter((note) => playerOf(note) === role).sort((a, b) => a.startSec - b.startSec);
    return strokesOf(own).flatMap((stroke) => eventOf(role, stroke, own, notes) ?? []);
  });
}

function strokesOf(own: readonly ReferenceNote[]): ReferenceNote[][] {
  const strokes: ReferenceNote[][] = [];
  for (const note of own) {
    const last = strokes.at(-1);
    if (last && last[0]!.kind === note.kind && note.startSec - last[0]!.startSec < STROKE_SEC)
      last.push(note);
    else strokes.push([note]);
  }
  return strokes;
}

function eventOf(
  role: string,
  stroke: readonly ReferenceNote[],
  own: readonly ReferenceNote[],
  all: readonly ReferenceNote[],
): FitEvent | null {
  const glided = stroke[0]!.kind === "slide";
  const fromSec = stroke[0]!.startSec + (glided ? AFTER_ARRIVAL_SEC : 0);
  const ringing = own.filter((note) => note.startSec < fromSec && note.endSec > fromSec + SHORTEST_SEC);
  const notes = glided ? [...new Set([...stroke, ...ringing])] : stroke;
  const arrivals = own.filter(
    ({ kind, startSec }) =>
      kind === "slide" && startSec > fromSec && !stroke.some((n) => n.startSec === startSec),
  );
  const toSec = Math.min(
    fromSec + LONGEST_SEC,
    ...notes.map(({ endSec }) => endSec),
    ...arrivals.map(({ startSec }) => startSec - BEFORE_ARRIVAL_SEC),
  );
  const notesMidi = [...new Set(notes.map(({ midi }) => Math.round(midi)))].sort((a, b) => a - b);
  if (toSec - fromSec < SHORTEST_SEC || notesMidi.length > MOST_NOTES) return null;
  if (notesMidi[0]! < LOWEST || notesMidi.at(-1)! > HIGHEST) return null;
  const soundingShare = new Map<Midi, number>();
  for (const { midi, startSec, endSec } of all) {
    const share = (Math.min(endSec, toSec) - Math.max(startSec, fromSec)) / (toSec - fromSec);
    const key = Math.round(midi);
    if (share > 0) soundingShare.set(key, Math.min(1, (soundingShare.get(key) ?? 0) + share));
  }
  for (const midi of notesMidi) soundingShare.set(midi, 1);
  return {
    role,
    startSec: Math.max(0, fromSec + jitter(fromSec)),
    endSec: toSec + jitter(toSec) / 2,
    notesMidi,
    soundingShare,
    glided,
  };
}

/** The same for the same time, evenly spread. */
function jitter(sec: Seconds): Seconds {
  const turned = Math.abs(Math.sin(sec * 7_919.31) * 43_758.5453) % 1;
  return (2 * turned - 1) * JITTER_SEC;
}

/** So many of a list, evenly spread over it. */
export function spread<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list];
  return Array.from({ length: most }, (_, i) => list[Math.floor((i * list.length) / most)]!);
}

/** Events of a record for fitting or for scoring: as many of the steel, or of a lone player, as of all others together. */
export function chosenEvents(truth: Truth, most: number): FitEvent[] {
  const events = fitEvents(truth.passage?.notes ?? []);
  const roles = [...new Set(events.map(({ role }) => role))];
  const others = roles.filter((role) => role !== "steel");
  const share = roles.includes("steel")
    ? Math.ceil(most / 2 / Math.max(1, others.length))
    : Math.ceil(most / Math.max(1, others.length));
  return roles.flatMap((role) =>
    spread(
      events.filter((event) => event.role === role),
      role === "steel" ? (others.length > 0 ? Math.ceil(most / 2) : most) : share,
    ),
  );
}
