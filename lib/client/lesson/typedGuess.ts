import type { Copedent } from "@/lib/instrument/Copedent";
import { CHART_LIMITS } from "@/lib/instrument/chart/chartLimits";
import { allStages } from "@/lib/instrument/stages";
import { inOrder } from "@/lib/lesson/compareNotes";
import type { GuessedPlace, GuessLane, LaneValue } from "@/lib/lesson/GuessValue";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import type { Midi } from "@/lib/units/quantities";
import { typedChord } from "../song/typedChord";
import { refuseNumbers } from "../song/typedNumbers";
import { wantedPitches } from "../song/wantedPitches";

/** A guess that was typed and cannot be read; the message is in words for people. */
export class TypedGuessError extends Error {
  override readonly name = "TypedGuessError";
}

/** What a guess is read by. */
export interface GuessReading {
  /** Home as the guesser sees it; null where it is not known or is covered: then no number of it means anything. */
  home: Key | null;
  /** Of the part. */
  copedent: Copedent;
  /** Names without an octave lie nearest to it; a whole pitch. */
  near: Midi;
}

/**
 * Reads what was typed as a guess in a lane: a home as in `A`, `f# minor`, `Em`; a chord as elsewhere on the page; notes by
 * their names or as numbers of home; a place as strings, fret and pedals: `5 6 fret 3 A B`, or shorter `5+6 3AB`.
 * @throws Error in words for people
 */
export function typedGuess(text: string, lane: GuessLane, by: GuessReading): LaneValue {
  const typed = text.trim().replaceAll("♭", "b").replaceAll("♯", "#");
  switch (lane) {
    case "home":
      return { lane, value: readHome(typed) };
    case "changes":
      return { lane, value: { label: typedChord(typed, by.home) } };
    case "heard": {
      if (!by.home) refuseNumbers(typed);
      const midis = inOrder(wantedPitches(typed, { key: by.home ?? C_MAJOR, near: by.near }));
      if (midis.length === 0) throw new TypedGuessError("Write one to three notes, as in B4 G4.");
      return { lane, value: { midis } };
    }
    case "places":
      return { lane, value: readPlace(typed, by.copedent) };
  }
}

function readHome(typed: string): Key {
  const match = /^([A-Ga-g])([b#]?)\s*(m|min|minor|-|maj|major)?$/.exec(typed);
  if (!match) throw new TypedGuessError(`"${typed}" is no home here: write A, F#, Bb, or Em, B minor.`);
  const [, letter = "", sign = "", mode = ""] = match;
  return { tonic: letter.toUpperCase() + sign, mode: /^(m|min|minor|-)$/.test(mode) ? "minor" : "major" };
}

const PLACE = /^(\d+(?:[\s+,·]+\d+)*)\s*(?:fret\s*|:\s*|\s)(\d+)((?:[\s+,]*[A-Za-z]+)*)$/i;

function readPlace(typed: string, copedent: Copedent): GuessedPlace {
  const match = PLACE.exec(typed);
  if (!match) throw new TypedGuessError("Write strings, fret and pedals: 5 6 fret 3 A B, or 5+6 3AB.");
  const [, list = "", fretText = "", letters = ""] = match;
  const strings = [...new Set(list.split(/[\s+,·]+/).map(Number))].sort((a, b) => a - b);
  const missing = strings.find((string) => !copedent.strings.some(({ number }) => number === string));
  if (missing !== undefined) throw new TypedGuessError(`This guitar has no string ${missing}.`);
  const fret = Number(fretText);
  if (fret > CHART_LIMITS.frets) throw new TypedGuessError(`There is no fret ${fret}.`);
  return { strings, fret, changes: readChanges(letters, copedent) };
}

/** Names of pedals and levers, apart or run together, the longest that fits first. */
function readChanges(letters: string, copedent: Copedent): string[] {
  const ids = allStages(copedent)
    .map(({ id }) => id)
    .sort((a, b) => b.length - a.length);
  const found: string[] = [];
  let left = letters.replace(/[\s+,]/g, "");
  while (left !== "") {
    const id = ids.find((each) => left.toLowerCase().startsWith(each.toLowerCase()));
    if (id === undefined) throw new TypedGuessError(`This guitar has no pedal or lever "${left}".`);
    if (!found.includes(id)) found.push(id);
    left = left.slice(id.length);
  }
  return found;
}
