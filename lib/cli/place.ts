import { readFile } from "node:fs/promises";
import { z } from "zod";
import { COPEDENTS, findCopedent } from "@/lib/instrument/copedentCatalog";
import type { PlacedEvent } from "@/lib/places/PlacedSequence";
import { placeSequence } from "@/lib/places/placeSequence";
import type { CommandStreams } from "./CommandStreams";

const USAGE = "Usage: place FILE, or place - to read the JSON from standard input.";

const seconds = z.number("must be a number of seconds");
const Request = z.object(
  {
    copedent: z.string('must be the name of a copedent, such as "e9"'),
    events: z.array(
      z
        .object({
          start: seconds,
          end: seconds,
          notes: z
            .array(
              z
                .int("must be a whole MIDI number from 0 to 127")
                .min(0, "must not be below 0")
                .max(127, "must not be above 127"),
              "must be a list of MIDI numbers",
            )
            .min(1, "must hold at least one note"),
        })
        .refine(({ start, end }) => end >= start, "must not end before it starts"),
      "must be a list of events",
    ),
  },
  "must be one JSON object with copedent and events",
);

/**
 * Reads a part as heard and prints where to play it.
 *
 * In: `{"copedent": "e9", "events": [{"start": s, "end": s, "notes": [midi]}]}` from a file, or from standard
 * input for `-`. Out: `{"events": [{"start", "chosen", "candidates": [{"fret", "changes", "strings", "notes",
 * "cost"}]}], "total"}`. `strings[i]` sounds `notes[i]`. Candidates run by fret, then fewest changes. `cost` is
 * that of the cheapest way to play the whole part with this candidate, so the chosen candidate's cost is the
 * least of its event and equals `total` (to a millionth). `chosen` is an index, or null where the notes cannot be played
 * (candidates are then empty); the other events are placed all the same.
 * @param args the file's path or `-`
 * @returns exit status: 0, or 1 after one line on stderr
 */
export async function runPlace(args: readonly string[], streams: CommandStreams): Promise<number> {
  const [path] = args;
  if (path === undefined || args.length > 1) return fail(streams, USAGE);
  let text: string;
  try {
    text = path === "-" ? await readAll(streams.stdin) : await readFile(path, "utf8");
  } catch (error) {
    return fail(streams, `Could not read ${path}: ${error instanceof Error ? error.message : String(error)}`);
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message.replace(/\s+/g, " ") : String(error);
    return fail(streams, `${path === "-" ? "The input" : path} is not JSON: ${why}`);
  }
  const request = Request.safeParse(json);
  if (!request.success) return fail(streams, firstFault(request.error));
  const copedent = findCopedent(request.data.copedent);
  if (copedent === null) {
    const known = COPEDENTS.map(({ id }) => id).join(", ");
    return fail(streams, `No copedent is called "${request.data.copedent}"; known: ${known}.`);
  }
  const heard = request.data.events.map(({ start, end, notes }) => ({
    startSec: start,
    endSec: end,
    notesMidi: notes,
  }));
  const placed = placeSequence(copedent, heard);
  const events = placed.events.map(writeEvent);
  streams.stdout.write(`${JSON.stringify({ events, total: rounded(placed.totalCost) })}\n`);
  return 0;
}

function writeEvent({ startSec, chosenIndex, candidates }: PlacedEvent) {
  return {
    start: startSec,
    chosen: chosenIndex,
    candidates: candidates.map(({ fret, changes, strings, notesMidi, cost }) => ({
      fret,
      changes,
      strings,
      notes: notesMidi,
      cost: rounded(cost),
    })),
  };
}

/** Sums of the same terms in another order differ in the last bits: a millionth is kept. */
function rounded(cost: number): number {
  return Math.round(cost * 1e6) / 1e6;
}

async function readAll(stream: AsyncIterable<Buffer | string>): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks).toString("utf8");
}

function firstFault(error: z.ZodError): string {
  const [issue] = error.issues;
  const at = (issue?.path ?? []).reduce<string>(
    (path, step) =>
      typeof step === "number" ? `${path}[${step}]` : path === "" ? String(step) : `${path}.${String(step)}`,
    "",
  );
  return `Cannot place this: ${at === "" ? "the input" : at} ${issue?.message ?? "is not as it should be"}.`;
}

function fail({ stderr }: CommandStreams, message: string): number {
  stderr.write(`${message.replace(/\s*\n\s*/g, " ")}\n`);
  return 1;
}
