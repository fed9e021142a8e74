import { stat } from "node:fs/promises";
import { HEARING_STEPS, type Hearing } from "@/lib/hearing/Hearing";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { MediaError } from "@/lib/server/media/MediaError";
import { takeInFile } from "@/lib/server/media/takeInFile";
import { toAnalysis } from "./analysisJson";
import type { CommandStreams } from "./place";

const USAGE =
  "Usage: analyse FILE, a recording; one JSON object is printed, progress goes to standard error.";
/** The command line has no upload to guard: an hour is what memory allows with ease. */
const MAX_DURATION_SEC = 3_600;
const TIME_LIMIT_SEC = 600;

/** Writes each step once, and how far it is in quarters. */
class StepLines {
  private last = "";

  constructor(private readonly stderr: CommandStreams["stderr"]) {}

  at(step: string, fraction: number): void {
    const line = `${step} ${Math.floor(fraction * 4) * 25} %`;
    if (line === this.last) return;
    this.last = line;
    this.stderr.write(`${line}\n`);
  }
}

async function hearFile(path: string, lines: StepLines): Promise<Hearing> {
  // In a thread, though nothing else waits: what the decoders print stays out of the way there.
  const record = await takeInFile(path, {
    maxDurationSec: MAX_DURATION_SEC,
    timeLimitSec: TIME_LIMIT_SEC,
    ffmpeg: process.env.LIFTBOOK_FFMPEG === "off" ? null : process.env.LIFTBOOK_FFMPEG || "ffmpeg",
  });
  // Told only now, so that of a file that cannot be read nothing is said but what is wrong with it.
  lines.at("decode", 1);
  return hearRecord(record, {
    onProgress: (step, fraction) => lines.at(step, fraction),
    ear: await readLearnedEar(),
  });
}

function reasonOf(fault: unknown, path: string): string {
  if (fault instanceof MediaError) return `${path}: ${fault.message.replace(" Nothing was kept.", "")}`;
  const code = (fault as NodeJS.ErrnoException | null)?.code;
  if (code === "ENOENT") return `${path}: there is no such file.`;
  if (code === "EACCES") return `${path} may not be read.`;
  return `${path} could not be analysed: ${fault instanceof Error ? fault.message : String(fault)}`;
}

/**
 * Hears one recording and prints what it heard as one line of JSON, {@link Analysis}; needs no database.
 * Progress goes to stderr, a step and how far it is on each line: `decode`, then those of HEARING_STEPS.
 * @param args the file
 * @returns exit status: 0, or 1 after one line on stderr that says what is wrong
 */
export async function runAnalyse(args: readonly string[], streams: CommandStreams): Promise<number> {
  const [path] = args;
  if (path === undefined || args.length > 1 || path.startsWith("--")) {
    streams.stderr.write(`${USAGE} Steps: decode, ${HEARING_STEPS.join(", ")}.\n`);
    return 1;
  }
  try {
    if ((await stat(path)).isDirectory()) {
      streams.stderr.write(`${path} is a folder; name a recording.\n`);
      return 1;
    }
    const hearing = await hearFile(path, new StepLines(streams.stderr));
    streams.stdout.write(`${JSON.stringify(toAnalysis(hearing))}\n`);
    return 0;
  } catch (fault) {
    streams.stderr.write(`${reasonOf(fault, path).replace(/\s*\n\s*/g, " ")}\n`);
    return 1;
  }
}
