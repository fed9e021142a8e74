import type { UploadLimits } from "@/lib/contracts/books";
import { errorMessage } from "@/lib/contracts/errors";
import { encodeWav } from "@/lib/synth/encodeWav";
import { bytesText } from "../format/format";

/** A recording that cannot be sent; the message is in words for people. */
export class RecordingRefused extends Error {
  override readonly name = "RecordingRefused";
}

/** Endings that the server reads by itself; the browser decodes the rest where the server has no ffmpeg. */
const READ_BY_SERVER = /\.(wav|wave|aiff?|aifc|mp3|flac|ogg|oga|opus)$/i;

/**
 * What to send for a file: its own bytes, or, for the rarer kinds on a server that cannot read them, lossless
 * WAV decoded by this browser at the file's own rate (a whole decode in memory, hence only where needed).
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
  const channels = Array.from({ length: decoded.numberOfChannels }, (_, index) =>
    decoded.getChannelData(index),
  );
  const body = new Blob([encodeWav(channels, decoded.sampleRate) as BlobPart], { type: "audio/wav" });
  if (body.size > limits.maxBytes)
    throw new RecordingRefused(errorMessage("too-large", { limit: bytesText(limits.maxBytes) }));
  return { body, fileName: `${file.name.replace(/\.[^.]*$/, "")}.wav` };
}

async function decode(bytes: ArrayBuffer): Promise<AudioBuffer> {
  // Decoding resamples to the context's rate; 44.1 kHz is what records come in.
  const context = new OfflineAudioContext(2, 1, 44_100);
  try {
    return await context.decodeAudioData(bytes);
  } catch {
    throw new RecordingRefused(errorMessage("needs-ffmpeg"));
  }
}
