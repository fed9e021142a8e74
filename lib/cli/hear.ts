import { parseArgs } from "node:util";
import type { HeardNote } from "@/lib/hearing/Hearing";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import type { CommandStreams } from "./CommandStreams";
import { hearNotesOf, noteEar } from "./hearNotesOf";
import { toPassageNotes } from "./passageJson";
import { readRecording, type StepLines, tellOfRecording } from "./recording";

const USAGE =
  "Usage: hear FILE [--from SECONDS] [--to SECONDS]; the notes of the passage are printed as one JSON object.";

interface Order {
  path: string;
  fromSec: number;
  /** Infinity for the end of the record. */
  toSec: number;
}

/** What was asked for, or the words that say what is wrong with it. */
function readOrder(args: readonly string[]): Order | string {
  let given: { values: { from?: string | undefined; to?: string | undefined }; positionals: string[] };
  try {
    const options = { from: { type: "string" }, to: { type: "string" } } as const;
    given = parseArgs({ args: [...args], options, allowPositionals: true });
  } catch {
    return USAGE;
  }
  const [path, ...rest] = given.positionals;
  if (path === undefined || rest.length > 0) return USAGE;
  const fromSec = given.values.from === undefined ? 0 : Number(given.values.from);
  const toSec = given.values.to === undefined ? Number.POSITIVE_INFINITY : Number(given.values.to);
  if (!(fromSec >= 0) || !(toSec > fromSec))
    return `A passage must begin at 0 s or later and end after it begins. ${USAGE}`;
  return { path, fromSec, toSec };
}

async function hearPassageOf(
  record: RecordSignal,
  { fromSec, toSec }: Order,
  lines: StepLines,
): Promise<HeardNote[]> {
  if (fromSec >= record.durationSec)
    throw new RangeError(
      `it is ${record.durationSec.toFixed(1)} s long, so that nothing lies at ${fromSec} s`,
    );
  const endSec = Math.min(toSec, record.durationSec);
  return hearNotesOf(record, await noteEar(), { startSec: fromSec, endSec }, lines).notes;
}

/**
 * Hears the notes of a passage and prints them as one line of JSON, {@link PassageNotes}; needs no database. Progress
 * goes to stderr: `decode`, then `notes`.
 * @param args the file, and the passage in seconds of the record
 * @returns exit status: 0, or 1 after one line on stderr that says what is wrong
 */
export async function runHear(args: readonly string[], streams: CommandStreams): Promise<number> {
  const order = readOrder(args);
  if (typeof order === "string") {
    streams.stderr.write(`${order}\n`);
    return 1;
  }
  return tellOfRecording(order.path, streams, async (lines) => {
    const record = await readRecording(order.path);
    lines.at("decode", 1);
    return toPassageNotes(await hearPassageOf(record, order, lines));
  });
}
