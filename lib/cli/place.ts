import { fretsOf } from "@/lib/instrument/frets";
import type { CostTerm } from "@/lib/places/Place";
import type { PlacedSequence } from "@/lib/places/PlacedSequence";
import { placeSequence } from "@/lib/places/placeSequence";
import type { CommandStreams } from "./CommandStreams";
import { readPlaceRequest } from "./placeRequest";
import { RequestFault, readJson } from "./readRequest";

const USAGE = "Usage: place FILE, or place - to read the JSON from standard input.";

/**
 * Reads a part as heard and prints where to play it.
 *
 * In: `{"copedent": "e9", "events": [{"start": s, "end": s, "notes": [midi]}]}` from a file, or from standard
 * input for `-`. `copedent` is the id of one that is shipped or a chart (`lib/instrument/chart`): `{"strings": [midi of
 * string 1, ...], "frets": 24, "changes": [{"id": "A", "slot": "P1", "moves": {"5": 2, "10": 2}}], "split": [strings]}`.
 * Of the part also, if wanted: `"key": "G"` (or `"E minor"`), `"slants": true` (the bar may be slanted) and `"locks"`. Of an event: `"chord"` in force in Harte's
 * syntax, `"glide"` as it was heard to come out of the event before (`"oblique"`: one voice against a held one,
 * `"parallel"`: all alike), and its own `"locks"`. What is locked holds absolutely; part and event together:
 *
 * - `"frets": [from, to]`; `"grip": [strings that may be played]`; `"pedals": "up"` (no floor pedal) or `"down"` (just
 *   those over which the foot rests, A and B on E9), levers being free; `"changes": [just these stages, needed or not]`;
 * - of an event alone `"string": {"64": 4}` (note 64 on string 4), `"fret": 3`, and the whole
 *   `"place": {"fret": 3, "changes": ["A"], "strings": [5]}`, with `"frets"` where its strings lie at different ones.
 *
 * Out: `{"events": [{"start", "chosen", "candidates": [{"fret", "changes", "strings", "notes", "cost", "reason",
 * "terms"}]}], "total"}`. `strings[i]` sounds `notes[i]`; where strings lie at different frets (under fingers or a slanted bar) `frets[i]`
 * says of each, and `fret` is the lowest that is not open. Candidates run by fret, then fewest changes. `cost` is
 * that of the cheapest way to play the whole part with this candidate, so the chosen candidate's cost is the
 * least of its event and equals `total` (to a millionth). `terms` is `{name: cost}`: what makes up that cost, here, on the
 * way here and on, and as `rest of the part` elsewhere; they add up to it. `chosen` is an index, or null where the notes
 * cannot be played or locks leave no place (candidates are then empty, and `"why"` says why); the other events are placed
 * all the same.
 * @param args the file's path or `-`
 * @returns exit status: 0, or 1 after one line on stderr
 */
export async function runPlace(args: readonly string[], streams: CommandStreams): Promise<number> {
  const [path] = args;
  if (path === undefined || args.length > 1) return fail(streams, USAGE);
  try {
    const { copedent, key, locks, slants, events } = readPlaceRequest(await readJson(path, streams));
    const answer = writeAnswer(placeSequence(copedent, events, { key, locks, slants }));
    streams.stdout.write(`${JSON.stringify(answer)}\n`);
    return 0;
  } catch (error) {
    if (error instanceof RequestFault) return fail(streams, error.message);
    throw error;
  }
}

function writeAnswer(placed: PlacedSequence) {
  const events = placed.events.map(({ startSec, chosenIndex, candidates, whyNone }, event) => ({
    start: startSec,
    chosen: chosenIndex,
    candidates: candidates.map((place, candidate) => {
      const { fret, changes, strings, notesMidi, cost } = place;
      const { reason, terms } = placed.explain(event, candidate);
      const frets = place.frets ? { frets: fretsOf(place) } : {};
      const own = { fret, ...frets, changes, strings, notes: notesMidi };
      return { ...own, cost: rounded(cost), reason, terms: writeTerms(terms, rounded(cost)) };
    }),
    ...(whyNone === null ? {} : { why: whyNone.words }),
  }));
  return { events, total: rounded(placed.totalCost) };
}

/** Rounded so that they still add up to the rounded cost: what is lost or won on the way goes to the largest. */
function writeTerms(terms: readonly CostTerm[], cost: number): Record<string, number> {
  const written = terms.map((term) => ({ name: term.name, cost: rounded(term.cost) }));
  const largest = written.reduce<{ cost: number } | null>(
    (most, term) => (most === null || Math.abs(term.cost) > Math.abs(most.cost) ? term : most),
    null,
  );
  const sum = written.reduce((so, term) => so + term.cost, 0);
  if (largest !== null) largest.cost = rounded(largest.cost + cost - sum);
  return Object.fromEntries(written.map((term) => [term.name, term.cost]));
}

/** Sums of the same terms in another order differ in the last bits: a millionth is kept. */
function rounded(cost: number): number {
  return Math.round(cost * 1e6) / 1e6;
}

function fail({ stderr }: CommandStreams, message: string): number {
  stderr.write(`${message.replace(/\s*\n\s*/g, " ")}\n`);
  return 1;
}
