import { errorMessage } from "@/lib/contracts/errors";
import type { UploadLimits } from "@/lib/contracts/uploads";
import { encodeWav } from "@/lib/synth/encodeWav";
import { bytesText } from "../format/format";

/** A recording that cannot be sent; the message is in words for people. */
export class RecordingRefused extends Error {
  override readonly name = "RecordingRefused";
}

/** Endings that the server reads by itself; the browser decodes the rest where the server has no ffmpeg. */
const READ_BY_SERVER = /\.(wav|wave|aiff?|aifc|mp3|flac|ogg|oga|opus)$/i;

/** Decoding resamples to the context's rate; 44.1 kHz is what records come in. */
const DECODED_RATE_HZ = 44_100;

/**
 * What to send for a file: its own bytes, or, for the rarer kinds on a server that cannot read them, 16-bit WAV
 * at 44.1 kHz decoded by this browser (a whole decode in memory, hence only where needed).
 * @throws RecordingRefused where the file is too large or this browser cannot read it either
 */
export async function prepareRecording(
  file: File,
  limits: UploadLimits,
): Promise<{ body: Blob; fileName: string }> {
  if (file.size > limits.maxBytes)
    throw new RecordingRefused(errorMessage("too-large", { limit: bytesText(limits.maxBytes) }));
  if (file.size === 0) throw new RecordingRefused(errorMessage("empty"));
  if (limits.readsEverything || READ_BY_SERVER.test(file.name)) return { body: file, fileName: file.name };
  const decoded = await decode(await file.arrayBuffer());
  if (decoded.duration > limits.maxDurationSec)
    throw new RecordingRefused(
      errorMessage("too-long", { limit: `${Math.round(limits.maxDurationSec / 60)} minutes` }),
    );
  const channels = Array.from({ length: decoded.numberOfChannels }, (_, index) =>
    decoded.getChannelData(index),
  );
  const body = new Blob([encodeWav(channels, decoded.sampleRate) as BlobPart], { type: "audio/wav" });
  if (body.size > limits.maxBytes)
    throw new RecordingRefused(
      `This server cannot read that kind of file, and what your browser reads out of it is larger than ${bytesText(limits.maxBytes)}. Nothing was kept. Save it as MP3 or FLAC and add it again.`,
    );
  return { body, fileName: `${file.name.replace(/\.[^.]*$/, "")}.wav` };
}

async function decode(bytes: ArrayBuffer): Promise<AudioBuffer> {
  const context = new OfflineAudioContext(2, 1, DECODED_RATE_HZ);
  try {
    return await context.decodeAudioData(bytes);
  } catch {
    throw new RecordingRefused(errorMessage("needs-ffmpeg"));
  }
}
