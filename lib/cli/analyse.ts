import { HEARING_STEPS } from "@/lib/hearing/Hearing";
import { hearRecord } from "@/lib/hearing/hear";
import { readLearnedEar } from "@/lib/server/hearing/earWeights";
import { toAnalysis } from "./analysisJson";
import type { CommandStreams } from "./CommandStreams";
import { readRecording, tellOfRecording } from "./recording";

const USAGE =
  "Usage: analyse FILE, a recording; one JSON object is printed, progress goes to standard error.";

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
  return tellOfRecording(path, streams, async (lines) => {
    const record = await readRecording(path);
    // Told only now, so that of a file that cannot be read nothing is said but what is wrong with it.
    lines.at("decode", 1);
    const hearing = hearRecord(record, {
      onProgress: (step, fraction) => lines.at(step, fraction),
      ear: await readLearnedEar(),
    });
    return toAnalysis(hearing);
  });
}
