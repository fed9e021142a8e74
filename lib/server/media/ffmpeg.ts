import { spawn } from "node:child_process";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { type FormatName, formatOf } from "./formats";
import { MediaError, tooLong } from "./MediaError";
import { readPcm } from "./pcm";
import { mostFrames, SampleSink } from "./SampleSink";
import { readWavHeader, type WavFormat } from "./wav";

export interface FfmpegOptions extends DecodeOptions {
  /** Path of the program. */
  ffmpeg: string;
  timeLimitSec: number;
  /** Told the program's process id, and null once it has ended. */
  onProcess?: (pid: number | null) => void;
}

/** What ffmpeg says of a file that ends too early. */
const CUT_SHORT =
  /moov atom not found|partial file|File ended prematurely|Truncat|truncated|EOF while reading|end of file/i;
const NO_SOUND = /matches no streams|does not contain any stream/i;
const DURATION = /Duration: (\d+):(\d+):(\d+(?:\.\d+)?)/;
/** The header that ffmpeg writes to a pipe is far shorter. */
const HEADER_BYTES = 512;
const LOG_BYTES = 65_536;

/**
 * The arguments, all fixed but the path. The demuxer is the one that the bytes call for, and only plain files are
 * opened, so that no file can make ffmpeg read another or reach the network.
 */
function argumentsFor(
  path: string,
  demuxer: string,
  { maxDurationSec, timeLimitSec }: FfmpegOptions,
): string[] {
  return [
    ...[
      "-nostdin",
      "-hide_banner",
      "-nostats",
      "-loglevel",
      "info",
      "-timelimit",
      String(Math.ceil(timeLimitSec)),
    ],
    ...["-protocol_whitelist", "file", "-f", demuxer, "-i", `file:${path}`],
    ...["-map", "0:a:0", "-map_metadata", "-1", "-t", String(maxDurationSec + 1)],
    ...["-fflags", "+bitexact", "-c:a", "pcm_f32le", "-f", "wav", "pipe:1"],
  ];
}

/** Takes ffmpeg's WAV stream as it comes: the header once it is whole, then samples. */
class WavStream {
  sink: SampleSink | null = null;
  format: WavFormat | null = null;
  private rest: Buffer = Buffer.alloc(0);

  constructor(
    private readonly options: DecodeOptions,
    private readonly expectedSec: () => number | null,
  ) {}

  /** @throws {MediaError} too-long */
  take(chunk: Buffer, isLast: boolean): void {
    let bytes = this.rest.length > 0 ? Buffer.concat([this.rest, chunk]) : chunk;
    if (!this.format || !this.sink) {
      if (bytes.length < HEADER_BYTES && !isLast) {
        this.rest = bytes;
        return;
      }
      const header = readWavHeader(bytes);
      if (!header) return;
      const { format } = header;
      const expectedSec = this.expectedSec();
      const expected = expectedSec === null ? null : Math.ceil((expectedSec + 1) * format.sampleRateHz);
      const most = mostFrames(this.options.maxDurationSec, format.sampleRateHz);
      this.sink = new SampleSink(
        format.channelCount,
        format.sampleRateHz,
        this.options,
        expected === null ? null : Math.min(expected, most),
      );
      this.format = format;
      bytes = bytes.subarray(header.dataAt);
    }
    const frameBytes = this.format.bytesPerSample * this.format.channelCount;
    const whole = bytes.length - (bytes.length % frameBytes);
    readPcm(bytes.subarray(0, whole), this.format, this.sink);
    this.rest = bytes.subarray(whole);
  }
}

function readDurationSec(log: string): number | null {
  const match = DURATION.exec(log);
  return match ? Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3]) : null;
}

/**
 * Decodes the first sound stream of a file with the system's ffmpeg.
 * @throws {MediaError} needs-ffmpeg where the program cannot be started; not-audio, cut-short (as far as ffmpeg
 *   tells), damaged, too-long, empty
 */
export async function decodeByFfmpeg(
  path: string,
  name: FormatName,
  options: FfmpegOptions,
): Promise<DecodedAudio> {
  const format = formatOf(name);
  if (format.demuxer === null) throw new Error(`${name} is not for ffmpeg`);
  const child = spawn(options.ffmpeg, argumentsFor(path, format.demuxer, options), {
    stdio: ["ignore", "pipe", "pipe"],
  });
  options.onProcess?.(child.pid ?? null);
  let log = "";
  child.stderr.setEncoding("utf8");
  child.stderr.on("data", (text: string) => {
    if (log.length < LOG_BYTES) log += text;
  });
  const ended = new Promise<number | null>((resolve, reject) => {
    child.on("error", () => reject(new MediaError("needs-ffmpeg")));
    child.on("close", resolve);
  });
  // Awaited below; a fault before that must not count as unhandled.
  ended.catch(() => {});
  const stream = new WavStream(options, () => readDurationSec(log));
  try {
    for await (const chunk of child.stdout as AsyncIterable<Buffer>) {
      stream.take(chunk, false);
      const promisedSec = readDurationSec(log);
      if (promisedSec !== null && promisedSec > options.maxDurationSec + 1)
        throw tooLong(options.maxDurationSec);
      if (promisedSec && stream.sink && stream.format) {
        options.onProgress?.(Math.min(1, stream.sink.frameCount / stream.format.sampleRateHz / promisedSec));
      }
    }
    stream.take(Buffer.alloc(0), true);
    const code = await ended;
    return finish(stream, name, code, log);
  } finally {
    if (child.exitCode === null && child.signalCode === null) child.kill("SIGKILL");
    options.onProcess?.(null);
  }
}

function finish(
  { sink, format }: WavStream,
  name: FormatName,
  code: number | null,
  log: string,
): DecodedAudio {
  if (NO_SOUND.test(log)) throw new MediaError("not-audio");
  if (CUT_SHORT.test(log)) throw new MediaError("cut-short");
  if (code !== 0) throw new MediaError("damaged");
  if (!sink || !format || sink.frameCount === 0) throw new MediaError("empty");
  const durationSec = sink.frameCount / format.sampleRateHz;
  const promisedSec = readDurationSec(log);
  if (promisedSec !== null && durationSec < promisedSec - Math.max(0.5, promisedSec / 100))
    throw new MediaError("cut-short");
  return {
    sampleRateHz: format.sampleRateHz,
    channels: sink.finish(),
    durationSec,
    container: "ffmpeg",
    format: name,
    mediaType: formatOf(name).mediaType,
    sourceChannelCount: format.channelCount,
    bitsPerSample: null,
  };
}
