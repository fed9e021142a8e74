import { MPEGDecoder } from "mpg123-decoder";
import type { DecodedAudio, DecodeOptions } from "./DecodedAudio";
import { MediaError } from "./MediaError";
import { findFirstFrame, type MpegFrame, type MpegWalk, walkFrames } from "./mpegFrames";
import { SampleSink } from "./SampleSink";

/** Frames given to the decoder at once. */
const FEED_FRAMES = 200;

/** The stream stops before its own header, or its last frame, says. */
function isCutShort({ frames, promisedFrames, endsWithinFrame }: MpegWalk): boolean {
  if (promisedFrames === null) return endsWithinFrame;
  const missing = promisedFrames - frames.length;
  // Some encoders count the header frame as well.
  return missing > 1 || (missing === 1 && endsWithinFrame);
}

/** Runs of frames that follow one another without junk between, as byte ranges of at most {@link FEED_FRAMES}. */
function* runsOf(frames: readonly MpegFrame[]): Generator<{ from: number; to: number; upTo: number }> {
  let first = 0;
  for (let i = 0; i < frames.length; i++) {
    const end = frames[i]!.at + frames[i]!.byteCount;
    if (i + 1 < frames.length && frames[i + 1]!.at === end && i + 1 - first < FEED_FRAMES) continue;
    yield { from: frames[first]!.at, to: end, upTo: i + 1 };
    first = i + 1;
  }
}

/**
 * Decodes MPEG audio, layers I to III, with mpg123; delay and padding that the encoder wrote down are cut off.
 * @throws {MediaError} not-audio, cut-short, damaged, too-long
 */
export async function decodeMp3(file: Uint8Array, options: DecodeOptions): Promise<DecodedAudio> {
  const first = findFirstFrame(file);
  if (!first) throw new MediaError("not-audio");
  const walk = walkFrames(file, first);
  if (isCutShort(walk)) throw new MediaError("cut-short");
  if (walk.frames.length === 0) throw new MediaError("empty");
  const { sampleRateHz, channelCount, sampleCount } = first;
  const sink = new SampleSink(channelCount, sampleRateHz, options, walk.frames.length * sampleCount);
  const decoder = new MPEGDecoder();
  await decoder.ready;
  try {
    const all = walk.headerFrame ? [walk.headerFrame, ...walk.frames] : walk.frames;
    for (const run of runsOf(all)) {
      const piece = decoder.decode(file.subarray(run.from, run.to));
      if (piece.errors.length > 0) throw new MediaError("damaged");
      // The decoder gives mono twice; the sink takes as many channels as the stream has.
      sink.append(piece.channelData, piece.samplesDecoded);
      options.onProgress?.(run.upTo / all.length);
    }
  } finally {
    decoder.free();
  }
  if (sink.frameCount === 0) throw new MediaError("damaged");
  return {
    sampleRateHz,
    channels: sink.finish(),
    durationSec: sink.frameCount / sampleRateHz,
    container: "mp3",
    format: "mp3",
    mediaType: "audio/mpeg",
    sourceChannelCount: channelCount,
    bitsPerSample: null,
  };
}
