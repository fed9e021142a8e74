import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { ShownGuess } from "@/lib/document/records/guesses";
import { FIRST_PART } from "@/lib/document/records/storage";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { allStages } from "@/lib/instrument/stages";
import type { Comparison } from "@/lib/lesson/Comparison";
import { compareChords } from "@/lib/lesson/compareChords";
import { compareKeys } from "@/lib/lesson/compareKeys";
import { compareNotes, inOrder } from "@/lib/lesson/compareNotes";
import { comparePlaces } from "@/lib/lesson/comparePlaces";
import type { LaneValue } from "@/lib/lesson/GuessValue";
import { hintChords } from "@/lib/lesson/hintChords";
import { hintKeys } from "@/lib/lesson/hintKeys";
import { hintNotes } from "@/lib/lesson/hintNotes";
import { hintPlaces } from "@/lib/lesson/hintPlaces";
import { soundingPitches } from "@/lib/notation/soundingPitches";
import { parseHarte } from "@/lib/theory/harte";
import type { Seconds } from "@/lib/units/quantities";
import { coveringMost } from "./coveringMost";

/** Where a guess is made, as kept guesses say it. */
export type GuessedAt = HeardStretch & Pick<ShownGuess, "lane" | "part">;

/** What stands in a lane at a place, as a learner is led to it. */
export interface LaneAnswer {
  /** Null where nothing is written there. */
  said: LaneValue | null;
  /** Where it lies, as far as that is told once it is uncovered. */
  stretch: HeardStretch | null;
  /** From the least telling on. @param guess the last one there; null before any */
  hints(guess: LaneValue | null): string[];
  compare(guess: LaneValue): Comparison;
}

/** What was picked within this of one another was picked together. */
const TOGETHER_SEC: Seconds = 0.05;
/** The bass is told of from so long before a change on. */
const BASS_BEFORE_SEC: Seconds = 2;

const NOTHING: LaneAnswer = {
  said: null,
  stretch: null,
  hints: () => ["Nothing is written there yet: go by how your guess fits the record."],
  compare: () => "none",
};

/**
 * The answer in a lane at a stretch: of the whole song, as it is resolved, so that ink comes before pencil.
 * @param seen the song as the learner sees it: hints may speak of that besides
 */
export function laneAnswer(
  whole: SongSnapshot,
  seen: SongSnapshot,
  { lane, part, startSec, endSec }: GuessedAt,
): LaneAnswer {
  const stretch = { startSec, endSec };
  switch (lane) {
    case "home":
      return homeAnswer(whole, stretch);
    case "changes":
      return changeAnswer(whole, seen, stretch);
    case "heard":
      return heardAnswer(whole, seen, stretch);
    case "places":
      return placeAnswer(whole, stretch, part ?? FIRST_PART);
  }
}

function homeAnswer({ homes }: SongSnapshot, stretch: HeardStretch): LaneAnswer {
  const home = coveringMost(reignsOf(homes), stretch);
  if (!home) return NOTHING;
  const value = { tonic: home.tonic, mode: home.mode };
  return {
    said: { lane: "home", value },
    stretch,
    hints: (guess) => hintKeys(value, guess?.lane === "home" ? guess.value : null),
    compare: (guess) => (guess.lane === "home" ? compareKeys(guess.value, value) : "other"),
  };
}

function changeAnswer(whole: SongSnapshot, seen: SongSnapshot, stretch: HeardStretch): LaneAnswer {
  const change = coveringMost(whole.changes, stretch);
  if (!change) return NOTHING;
  const { label, startSec, endSec } = change;
  const at = whole.changes.indexOf(change);
  const bass = whole.bass.filter(
    (note) => note.endSec > startSec - BASS_BEFORE_SEC && note.startSec < endSec - TOGETHER_SEC,
  );
  const home = coveringMost(reignsOf(seen.homes), change);
  return {
    said: { lane: "changes", value: { label } },
    stretch: { startSec, endSec },
    hints: (guess) =>
      hintChords(label, guess?.lane === "changes" ? guess.value.label : null, {
        before: whole.changes[at - 1]?.label ?? null,
        bass: bass.map(({ midi }) => midi),
        home: home ? { tonic: home.tonic, mode: home.mode } : null,
      }),
    compare: (guess) => (guess.lane === "changes" ? compareChords(guess.value.label, label) : "other"),
  };
}

/** Homes with the stretch in which each holds, the first from the start of the record on. */
function reignsOf(homes: SongSnapshot["homes"]) {
  return homes.map((home, at) => ({
    ...home,
    startSec: at === 0 ? 0 : home.startSec,
    endSec: homes[at + 1]?.startSec ?? Number.POSITIVE_INFINITY,
  }));
}

function heardAnswer(whole: SongSnapshot, seen: SongSnapshot, stretch: HeardStretch): LaneAnswer {
  const first = beginningIn(whole.notes, stretch)[0];
  if (!first) return NOTHING;
  const together = whole.notes.filter(
    (note) => note.startSec >= first.startSec && note.startSec <= first.startSec + TOGETHER_SEC,
  );
  const before = whole.notes.filter((note) => note.startSec < first.startSec - TOGETHER_SEC);
  const lastSec = before.at(-1)?.startSec;
  const lastMidis = before
    .filter((note) => note.startSec >= (lastSec ?? 0) - TOGETHER_SEC)
    .map(({ midi }) => midi);
  const midis = inOrder(together.map(({ midi }) => midi));
  const change = coveringMost(seen.changes, { startSec: first.startSec, endSec: first.startSec + 0.1 });
  return {
    said: { lane: "heard", value: { midis } },
    stretch: { startSec: first.startSec, endSec: Math.max(...together.map(({ endSec }) => endSec)) },
    hints: (guess) =>
      hintNotes(midis, guess?.lane === "heard" ? guess.value.midis : null, {
        before: lastMidis.length > 0 ? Math.max(...lastMidis) : null,
        glides: together.flatMap(({ midi, glides }) =>
          glides.map(({ toMidi }, at) => toMidi - (glides[at - 1]?.toMidi ?? midi)),
        ),
        chord: change ? (parseHarte(change.label)?.pitchClasses ?? null) : null,
      }),
    compare: (guess) => (guess.lane === "heard" ? compareNotes(guess.value.midis, midis) : "other"),
  };
}

function placeAnswer({ parts }: SongSnapshot, stretch: HeardStretch, partId: string): LaneAnswer {
  const part = parts.find(({ id }) => id === partId);
  if (!part) return NOTHING;
  const { copedent } = part.head;
  const known = new Set(allStages(copedent).map(({ id }) => id));
  const event = beginningIn(part.events, stretch).find(({ changes }) => changes.every((id) => known.has(id)));
  if (!event) return NOTHING;
  const { strings, fret, changes, startSec, endSec } = event;
  const value = { strings, fret, changes };
  const sounding = soundingPitches(copedent, event, part.events).filter((midi) => midi !== null);
  return {
    said: { lane: "places", value },
    stretch: { startSec, endSec },
    hints: (guess) => hintPlaces(value, guess?.lane === "places" ? guess.value : null, copedent, sounding),
    compare: (guess) =>
      guess.lane === "places" ? comparePlaces(guess.value, value, copedent, sounding) : "other",
  };
}

/** Those that begin in a stretch, or hardly before it. */
function beginningIn<R extends { startSec: Seconds }>(list: readonly R[], stretch: HeardStretch): R[] {
  return list.filter(
    ({ startSec }) => startSec >= stretch.startSec - TOGETHER_SEC && startSec < stretch.endSec - TOGETHER_SEC,
  );
}
