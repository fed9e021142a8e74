import { parseArgs } from "node:util";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { hearNotesInPieces } from "@/lib/hearing/notes/hearNotesInPieces";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import type { CommandStreams } from "./CommandStreams";
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

async function hearNotesOf(
  record: RecordSignal,
  { fromSec, toSec }: Order,
  lines: StepLines,
): Promise<HeardNote[]> {
  if (fromSec >= record.durationSec)
    throw new RangeError(
      `it is ${record.durationSec.toFixed(1)} s long, so that nothing lies at ${fromSec} s`,
    );
  const ear = await readLearnedEar();
  if (!ear) throw new Error("notes are heard by the learned ear, and this installation has none");
  const { signal } = record;
  const tuningCents = hearTuning(signal).cents;
  const endSec = Math.min(toSec, record.durationSec);
  return hearNotesInPieces({ signal, tuningCents, ear }, { startSec: fromSec, endSec }, (fraction) =>
    lines.at("notes", fraction),
  );
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
    return toPassageNotes(await hearNotesOf(record, order, lines));
  });
}
