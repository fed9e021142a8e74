import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { readFile } from "node:fs/promises";
import { type MeasuredSong, measuredLabelsSchema } from "@/lib/contracts/labels";
import { hearingVersion } from "@/lib/hearing/hear";
import type { CommandStreams } from "./CommandStreams";
import { hearNotesOf, noteEar } from "./hearNotesOf";
import { measureNotes } from "./measureNotes";
import { readRecording, tellOfRecording } from "./recording";

const USAGE =
  "Usage: measure LABELS FILE, a file of labels out of a book and the recording that it tells of; the scores are printed as one JSON object.";

/** The labels' own faults, told of their file; what is wrong with the recording is told of the recording. */
class LabelsFault extends Error {}

async function readSongs(path: string): Promise<MeasuredSong[]> {
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (fault) {
    const why = (fault as NodeJS.ErrnoException).code === "ENOENT" ? "there is no such file" : String(fault);
    throw new LabelsFault(`${path}: ${why}.`);
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new LabelsFault(`${path} is not JSON.`);
  }
  const read = measuredLabelsSchema.safeParse(json);
  if (read.success) return read.data.songs;
  const [issue] = read.error.issues;
  throw new LabelsFault(`${path} cannot be read as labels: ${issue?.path.join(".")} ${issue?.message}.`);
}

async function sha256Of(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}

/** @throws {LabelsFault} where the labels tell of no such recording, or not of its notes */
function songOf(songs: readonly MeasuredSong[], sha256: string, labelsPath: string): MeasuredSong {
  const song = songs.find(({ recordSha256 }) => recordSha256 === sha256);
  if (!song)
    throw new LabelsFault(
      `${labelsPath} does not tell of this recording, whose SHA-256 is ${sha256}. Name the very file that was added to the book.`,
    );
  if (!song.labels.note)
    throw new LabelsFault(`${labelsPath} holds no labels of notes. Take it out of the book with them.`);
  if (!song.notesGoneOver?.length)
    throw new LabelsFault(
      `In ${labelsPath} no stretch of this recording has been gone over. Settle every note of a stretch, three or more in a row, and take the labels out again.`,
    );
  return song;
}

/**
 * Hears the notes of a recording and scores them against what people settled, over the stretches that they have gone
 * over; prints one line of JSON, {@link NoteMeasures} with the record and the ear named. Needs no database. Progress
 * goes to stderr: `decode`, then `notes`.
 * @param args the file of labels and the recording, which must be the very bytes that were added to the book
 * @returns exit status: 0, or 1 after one line on stderr that says what is wrong
 */
export async function runMeasure(args: readonly string[], streams: CommandStreams): Promise<number> {
  const [labelsPath, path] = args;
  if (labelsPath === undefined || path === undefined || args.length > 2 || labelsPath.startsWith("--")) {
    streams.stderr.write(`${USAGE}\n`);
    return 1;
  }
  let songs: MeasuredSong[];
  try {
    songs = await readSongs(labelsPath);
  } catch (fault) {
    if (!(fault instanceof LabelsFault)) throw fault;
    streams.stderr.write(`${fault.message}\n`);
    return 1;
  }
  return tellOfRecording(path, streams, async (lines) => {
    const recordSha256 = await sha256Of(path);
    const song = songOf(songs, recordSha256, labelsPath);
    const record = await readRecording(path);
    lines.at("decode", 1);
    const notesEar = await noteEar();
    const { durationSec } = record;
    const heard = hearNotesOf(record, notesEar, { startSec: 0, endSec: durationSec }, lines);
    return { recordSha256, ear: hearingVersion({ notesEar }), ...measureNotes(song, heard) };
  });
}
