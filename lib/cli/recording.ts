import { stat } from "node:fs/promises";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { MediaError } from "@/lib/server/media/MediaError";
import { takeInFile } from "@/lib/server/media/takeInFile";
import type { CommandStreams } from "./CommandStreams";

/** The command line has no upload to guard: an hour is what memory allows with ease. */
const MAX_DURATION_SEC = 3_600;
const TIME_LIMIT_SEC = 600;

/** Writes each step once, and how far it is in quarters. */
export class StepLines {
  private last = "";

  constructor(private readonly stderr: CommandStreams["stderr"]) {}

  at(step: string, fraction: number): void {
    const line = `${step} ${Math.floor(fraction * 4) * 25} %`;
    if (line === this.last) return;
    this.last = line;
    this.stderr.write(`${line}\n`);
  }
}

/** Reads a recording as the ear takes it in. */
export function readRecording(path: string): Promise<RecordSignal> {
  // In a thread, though nothing else waits: what the decoders print stays out of the way there.
  return takeInFile(path, {
    maxDurationSec: MAX_DURATION_SEC,
    timeLimitSec: TIME_LIMIT_SEC,
    ffmpeg: process.env.LIFTBOOK_FFMPEG === "off" ? null : process.env.LIFTBOOK_FFMPEG || "ffmpeg",
  });
}

/**
 * Prints what a command hears of one recording as one line of JSON.
 * @returns exit status: 0, or 1 after one line on stderr that says what is wrong
 */
export async function tellOfRecording(
  path: string,
  streams: CommandStreams,
  listen: (lines: StepLines) => Promise<object>,
): Promise<number> {
  try {
    if ((await stat(path)).isDirectory()) {
      streams.stderr.write(`${path} is a folder; name a recording.\n`);
      return 1;
    }
    streams.stdout.write(`${JSON.stringify(await listen(new StepLines(streams.stderr)))}\n`);
    return 0;
  } catch (fault) {
    streams.stderr.write(`${reasonOf(fault, path).replace(/\s*\n\s*/g, " ")}\n`);
    return 1;
  }
}

function reasonOf(fault: unknown, path: string): string {
  if (fault instanceof MediaError) return `${path}: ${fault.message.replace(" Nothing was kept.", "")}`;
  const code = (fault as NodeJS.ErrnoException | null)?.code;
  if (code === "ENOENT") return `${path}: there is no such file.`;
  if (code === "EACCES") return `${path} may not be read.`;
  return `${path} could not be analysed: ${fault instanceof Error ? fault.message : String(fault)}`;
}
