import { parseArgs } from "node:util";
import type { FitAnswer } from "@/lib/fit/FitAnswer";
import { FitEar, SHORTEST_SEC } from "@/lib/fit/FitEar";
import { fitGuess, MOST_NOTES } from "@/lib/fit/fitGuess";
import { nearestWords } from "@/lib/fit/fitWords";
import type { Guess } from "@/lib/fit/Guess";
import { isInReach, REACH_WORDS } from "@/lib/fit/PassageFit";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";
import { HarteError, parseHarte } from "@/lib/theory/harte";
import { type Key, keyToWords } from "@/lib/theory/key";
import { PitchNameError, parsePitchName } from "@/lib/theory/spelling";
import type { CommandStreams } from "./CommandStreams";
import { readRecording, tellOfRecording } from "./recording";
import { rounded } from "./rounded";

const USAGE =
  'Usage: fit FILE [--from SECONDS] [--to SECONDS] and one of --notes 67,71 (MIDI numbers), --chord G:7, --key "G major"; how far the guess agrees with the record is printed as one JSON object.';

interface Order {
  path: string;
  fromSec: number;
  /** Infinity for the end of the record. */
  toSec: number;
  guess: Guess;
}

/** What was asked for, or the words that say what is wrong with it. */
function readOrder(args: readonly string[]): Order | string {
  const text = { type: "string" } as const;
  let given: {
    values: Partial<Record<"from" | "to" | "notes" | "chord" | "key", string>>;
    positionals: string[];
  };
  try {
    const options = { from: text, to: text, notes: text, chord: text, key: text };
    given = parseArgs({ args: [...args], options, allowPositionals: true });
  } catch {
    return USAGE;
  }
  const { values, positionals } = given;
  const [path, ...rest] = positionals;
  if (path === undefined || rest.length > 0) return USAGE;
  const fromSec = values.from === undefined ? 0 : Number(values.from);
  const toSec = values.to === undefined ? Number.POSITIVE_INFINITY : Number(values.to);
  if (!(fromSec >= 0) || !(toSec >= fromSec + SHORTEST_SEC))
    return `A passage must begin at 0 s or later and last ${SHORTEST_SEC} s at least. ${USAGE}`;
  const asked = (["notes", "chord", "key"] as const).filter((kind) => values[kind] !== undefined);
  if (asked.length !== 1) return `Give one guess: notes, a chord or a key. ${USAGE}`;
  const guess = readGuess(asked[0]!, values[asked[0]!]!);
  return typeof guess === "string" ? `${guess} ${USAGE}` : { path, fromSec, toSec, guess };
}

function readGuess(kind: "notes" | "chord" | "key", text: string): Guess | string {
  if (kind === "notes") {
    const midis = text.split(/[\s,]+/).filter((part) => part !== "");
    const notes = [...new Set(midis.map(Number))].map((midi) => ({ midi }));
    if (notes.length === 0 || notes.some(({ midi }) => !Number.isInteger(midi) || !isInReach(midi)))
      return `"${text}" are no notes: write MIDI numbers ${REACH_WORDS}, with commas between.`;
    if (notes.length > MOST_NOTES) return `A guess holds ${MOST_NOTES} notes at most.`;
    return { kind, notes };
  }
  try {
    if (kind === "key") return { kind, key: readKey(text) };
    if (parseHarte(text) === null) return "That there is no chord cannot be held against the record.";
    return { kind, label: text.trim() };
  } catch (fault) {
    if (fault instanceof HarteError || fault instanceof PitchNameError || fault instanceof RangeError)
      return fault.message;
    throw fault;
  }
}

function readKey(text: string): Key {
  const [tonic = "", mode = "major", ...rest] = text.trim().split(/\s+/);
  if (rest.length > 0 || (mode !== "major" && mode !== "minor"))
    throw new RangeError(`"${text}" is no key: write a note and major or minor, as in "G major".`);
  parsePitchName(tonic);
  if (/\d/.test(tonic)) throw new RangeError(`"${text}" is no key: its note has no octave.`);
  return { tonic, mode };
}

/** How far a guess agrees, as the command line prints it. */
function toPrinted(answer: FitAnswer): object {
  const says = nearestWords(answer);
  const fit = rounded(answer.fit);
  switch (answer.kind) {
    case "notes":
      return {
        fit,
        perNote: answer.perNote.map((note) => ({
          midi: note.midi,
          fit: rounded(note.fit),
          offCents: Math.round(note.offCents),
        })),
        nearest: answer.nearest.map((near, i) => ({
          notes: near.notesMidi,
          fit: rounded(near.fit),
          says: says[i],
        })),
      };
    case "chord":
      return {
        fit,
        nearest: answer.nearest.map((near, i) => ({
          chord: near.label,
          fit: rounded(near.fit),
          says: says[i],
        })),
      };
    case "key":
      return {
        fit,
        nearest: answer.nearest.map((near, i) => ({
          key: keyToWords(near.key),
          fit: rounded(near.fit),
          says: says[i],
        })),
      };
  }
}

function fitOf(record: RecordSignal, { fromSec, toSec, guess }: Order): FitAnswer {
  const endSec = Math.min(toSec, record.durationSec);
  if (endSec < fromSec + SHORTEST_SEC)
    throw new RangeError(
      `it is ${record.durationSec.toFixed(1)} s long, so that nothing lies from ${fromSec} s on`,
    );
  const ear = new FitEar(hearTuning(record.signal).cents);
  return fitGuess(ear, record, { startSec: fromSec, endSec }, guess);
}

/**
 * Holds a guess against a passage of a record and prints how far it agrees, beside its near misses, as one line of JSON;
 * needs no database. Notes are in the record's own tuning. Progress goes to stderr: `decode`, then `fit`.
 * @param args the file, the passage in seconds of the record, and the guess
 * @returns exit status: 0, or 1 after one line on stderr that says what is wrong
 */
export async function runFit(args: readonly string[], streams: CommandStreams): Promise<number> {
  const order = readOrder(args);
  if (typeof order === "string") {
    streams.stderr.write(`${order}\n`);
    return 1;
  }
  return tellOfRecording(order.path, streams, async (lines) => {
    const record = await readRecording(order.path);
    lines.at("decode", 1);
    const answer = fitOf(record, order);
    lines.at("fit", 1);
    return toPrinted(answer);
  });
}
