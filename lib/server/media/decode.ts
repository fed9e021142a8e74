import { open, readFile, stat } from "node:fs/promises";
import { aiffSamples, decodeAiff } from "./aiff";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { decodeByFfmpeg } from "./ffmpeg";
import { findFfmpeg } from "./findFfmpeg";
import { decodeFlac } from "./flac";
import type { formatOf } from "./formats";
import { MediaError, tooLarge } from "./MediaError";
import { decodeMp3 } from "./mp3";
import { decodeOggOpus, decodeOggVorbis } from "./oggCodecs";
import { readPlainFile } from "./plainSamples";
import { recognise } from "./recognise";
import { decodeWav, wavSamples } from "./wav";

export interface DecodeHereOptions extends DecodeOptions {
  /** Name or path of ffmpeg, for the formats that we do not read ourselves; null where it must not be used. */
  ffmpeg: string | null;
  /** Ends ffmpeg; for everything else whoever runs the thread keeps the time. */
  timeLimitSec: number;
  /** Told the process id of ffmpeg while it runs, null once it has ended. */
  onProcess?: (pid: number | null) => void;
}

/** Node reads no more than this at once. */
const MOST_BYTES = 2 ** 31 - 1;
/** Samples begin within the first so many bytes, but for files with large pictures in front. */
const HEAD_BYTES = 1 << 18;

/**
 * Decodes a record in this thread, which is busy for seconds: for worker threads and commands only. Everyone else
 * calls what runs in a media thread (`takeInFile`, `inspectRecord`, `makeListeningCopy`). The format is known by the bytes, whatever the file is called.
 * @throws {MediaError}
 */
export async function decodeHere(path: string, options: DecodeHereOptions): Promise<DecodedAudio> {
  const { size } = await stat(path);
  if (size === 0) throw new MediaError("empty");
  if (size > MOST_BYTES) throw tooLarge(MOST_BYTES);
  try {
    return (
      (await decodePlainFile(path, size, options)) ?? (await decodeBytes(await readFile(path), path, options))
    );
  } catch (fault) {
    if (fault instanceof MediaError || isOutOfMemory(fault)) throw fault;
    // Headers that point outside of the file, packets that a decoder chokes on.
    throw new MediaError("damaged", {}, { cause: fault });
  }
}

/** Large files of plain samples are not read as a whole; null for all others. */
async function decodePlainFile(
  path: string,
  size: number,
  options: DecodeHereOptions,
): Promise<DecodedAudio | null> {
  const file = await open(path, "r");
  try {
    const buffer = Buffer.alloc(Math.min(size, HEAD_BYTES));
    const { bytesRead } = await file.read(buffer, 0, buffer.length, 0);
    const head = buffer.subarray(0, bytesRead);
    const format = recognise(head);
    if (format !== "wav" && format !== "aiff") return null;
    const plain = format === "wav" ? wavSamples(head, size) : aiffSamples(head, size);
    return plain && (await readPlainFile(plain, file, options));
  } catch (fault) {
    // Compressed samples in a plain container.
    if (fault instanceof MediaError && fault.code === "needs-ffmpeg") return null;
    throw fault;
  } finally {
    await file.close();
  }
}

function isOutOfMemory(fault: unknown): boolean {
  return fault instanceof RangeError && /allocation failed/i.test(fault.message);
}

async function decodeBytes(
  file: Uint8Array,
  path: string,
  options: DecodeHereOptions,
): Promise<DecodedAudio> {
  const format = recognise(file);
  switch (format) {
    case null:
      throw new MediaError("not-audio");
    case "wav":
    case "aiff":
      try {
        return format === "wav" ? decodeWav(file, options) : decodeAiff(file, options);
      } catch (fault) {
        // Compressed samples in a plain container.
        if (fault instanceof MediaError && fault.code === "needs-ffmpeg")
          return byFfmpeg(path, format, options);
        throw fault;
      }
    case "mp3":
      return decodeMp3(file, options);
    case "flac":
    case "ogg-flac":
      return decodeFlac(file, format === "ogg-flac", options);
    case "ogg-vorbis":
      return decodeOggVorbis(file, options);
    case "opus":
      return decodeOggOpus(file, options);
    default:
      return byFfmpeg(path, format, options);
  }
}

async function byFfmpeg(path: string, format: Parameters<typeof formatOf>[0], options: DecodeHereOptions) {
  const ffmpeg = await findFfmpeg(options.ffmpeg);
  if (ffmpeg === null) throw new MediaError("needs-ffmpeg");
  return decodeByFfmpeg(path, format, { ...options, ffmpeg });
}
