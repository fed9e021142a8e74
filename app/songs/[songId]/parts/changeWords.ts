import { placeWords, type SongGrid } from "@/lib/client/axis/songGrid";
import { clockText, momentText, printed, sureText } from "@/lib/client/format/format";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { RecordBase } from "@/lib/document/records/records";
import { MACHINE } from "@/lib/document/records/Stamp";
import { parseHarte } from "@/lib/theory/harte";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { type ChordNumber, chordToLetters, chordToNumber, NO_CHORD_TEXT } from "@/lib/theory/numberChart";
import { midiToDegree, respellInKey } from "@/lib/theory/scaleDegree";
import { midiToName, spellPitchClass } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { keyAt, numberKeyAt, type SongHomes } from "./selection";

/** How a change reads: the degree large, what follows it small, the letters beside. */
export interface ChangeText {
  /** `4`, `♭7`, or N.C. */
  degree: string;
  /** `−7`, `/3`; empty for a plain major chord. */
  rest: string;
  letters: string;
}

/** @param key home, as it is seen there; null where it is not: then the letters stand where the number would */
export function changeText(label: string, key: Key | null): ChangeText {
  if (key === null) return letterText(label);
  const number: ChordNumber | null = chordToNumber(label, key);
  if (number === null) return { degree: NO_CHORD_TEXT, rest: "", letters: "" };
  const bass = number.bass === null ? "" : `/${number.bass}`;
  return {
    degree: printed(number.accidental + number.degree),
    rest: printed(number.quality) + printed(bass),
    letters: printed(chordToLetters(label, key)),
  };
}

function letterText(label: string): ChangeText {
  const chord = parseHarte(label);
  if (chord === null) return { degree: NO_CHORD_TEXT, rest: "", letters: "" };
  const root = respellInKey(chord.rootName, C_MAJOR);
  return {
    degree: printed(root),
    rest: printed(chordToLetters(label, C_MAJOR).slice(root.length)),
    letters: "",
  };
}

/** A note as a number of home; by its letter where home is not seen. Plain text, as printed. */
export function noteNumber(midi: Midi, song: SongHomes, timeSec: Seconds): string {
  const key = numberKeyAt(song, timeSec);
  return printed(
    key ? midiToDegree(midi, key) : spellPitchClass(midiToPitchClass(midi), keyAt(song, timeSec)),
  );
}

/** The same with its name, `5 D3`; the name alone where home is not seen. */
export function numberAndName(midi: Midi, song: SongHomes, timeSec: Seconds): string {
  const name = printed(midiToName(midi, keyAt(song, timeSec)));
  return numberKeyAt(song, timeSec) ? `${noteNumber(midi, song, timeSec)} ${name}` : name;
}

/** Whose pencil or ink it is: "in pencil, 64 % sure", "inked by Ines, 12 Dec 2026, 14:02". */
export function markWords(record: RecordBase, nameOf: (userId: string) => string): string {
  if (record.mark === "ink") return `inked by ${nameOf(record.editedBy)}, ${momentText(record.editedAtMs)}`;
  const who = record.madeBy === MACHINE ? "heard by the machine" : `guessed by ${nameOf(record.madeBy)}`;
  return `in pencil, ${who}${record.confidence === null ? "" : `, ${sureText(record.confidence)} sure`}`;
}

/** The same as short as a cell of a list: "pencil, 64 %", "ink, Ines". */
export function markCell(record: RecordBase, nameOf: (userId: string) => string): string {
  if (record.mark === "ink") return `ink, ${nameOf(record.editedBy)}`;
  return record.confidence === null ? "pencil" : `pencil, ${sureText(record.confidence)}`;
}

/** What begins this soon begins with the record. */
const AT_START_SEC = 0.02;

/** Where a stretch lies: "bar 3 beat 1 to bar 4 beat 1", or in seconds where no beats are known. */
export function stretchWords(grid: SongGrid | null, startSec: number, endSec: number): string {
  if (!grid) return `${clockText(startSec, true)} to ${clockText(endSec, true)}`;
  const from = startSec < AT_START_SEC ? "the start" : placeWords(grid, startSec);
  const to = placeWords(grid, endSec);
  return from === to ? from : `${from} to ${to}`;
}

/** Words that begin a line. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A change in one line, for those who hear the page. */
export function changeLine(
  change: ShownChange,
  key: Key | null,
  grid: SongGrid | null,
  nameOf: (userId: string) => string,
): string {
  const { degree, rest, letters } = changeText(change.label, key);
  return `${degree}${rest}${letters ? `, ${letters}` : ""}, ${stretchWords(grid, change.startSec, change.endSec)}, ${markWords(change, nameOf)}`;
}
