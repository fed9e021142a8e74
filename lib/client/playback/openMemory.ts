import type { Seconds } from "@/lib/units/quantities";
import {
  type DecodeProgress,
  decodeRecord,
  fetchRecord,
  hasRoom,
  inChunks,
  NotInMemory,
  peakOfRecord,
} from "./decodeRecord";
import type { PlaybackAnswer, PlaybackMessage } from "./playbackMessages";
import { RECORD_PROCESSOR, RECORD_URL } from "./workletNames";

/** A record in the audio thread, ready to be played. */
export interface RecordInMemory {
  /** Its first output is the record, its second the clicks. */
  node: AudioWorkletNode;
  /** 1 or 2. */
  channels: number;
}

/**
 * Fetches a record, decodes it once and hands it to the audio thread.
 * @param signal ends it, and all that was made of it, at any time
 * @throws Error in words for people; the signal's reason where that ended it
 */
export async function openMemory(
  url: string,
  durationSec: Seconds,
  context: AudioContext,
  signal: AbortSignal,
  onProgress: (progress: DecodeProgress) => void,
): Promise<RecordInMemory> {
  if (!context.audioWorklet)
    throw new NotInMemory(
      "Browsers stretch a record only at an address that begins with https, or on the machine itself.",
    );
  const { deviceMemory } = navigator as Navigator & { deviceMemory?: number };
  if (!hasRoom(durationSec, context.sampleRate, deviceMemory))
    throw new NotInMemory("The record is too long for this device's memory.");
  const loading = context.audioWorklet.addModule(RECORD_URL);
  // What goes wrong with it is told when it is waited for.
  loading.catch(() => {});
  const bytes = await fetchRecord(url, signal, onProgress);
  onProgress({ step: "decoding", fraction: 1 });
  const decoded = await decodeRecord(bytes, context);
  signal.throwIfAborted();
  const peak = await peakOfRecord(decoded, signal);
  await loading.catch(() => {
    throw new NotInMemory("The player for records in memory could not be fetched.");
  });
  signal.throwIfAborted();
  const node = new AudioWorkletNode(context, RECORD_PROCESSOR, {
    numberOfInputs: 0,
    numberOfOutputs: 2,
    outputChannelCount: [2, 1],
  });
  const tell = (message: PlaybackMessage, transfer: Transferable[] = []) =>
    node.port.postMessage(message, transfer);
  // Whoever ends it may do so before anybody holds the node: its processor would run on.
  signal.addEventListener("abort", () => tell({ kind: "close" }), { once: true });
  try {
    tell({ kind: "open", rateHz: decoded.sampleRate, peak });
    await inChunks(decoded, peak, signal, (chunk) =>
      tell(
        { kind: "chunk", chunk },
        chunk.map(({ buffer }) => buffer),
      ),
    );
    const answer = new Promise<PlaybackAnswer>((resolve, reject) => {
      node.port.onmessage = ({ data }: MessageEvent<PlaybackAnswer>) => resolve(data);
      signal.addEventListener("abort", () => reject(signal.reason), { once: true });
    });
    tell({ kind: "loaded" });
    const answered = await answer;
    if (answered.kind === "failed") throw new NotInMemory(`The stretch did not load: ${answered.because}.`);
    signal.throwIfAborted();
    return { node, channels: Math.min(2, decoded.numberOfChannels) };
  } catch (fault) {
    tell({ kind: "close" });
    throw fault;
  }
}
