import type { Hertz, Seconds } from "@/lib/units/quantities";
import { reach } from "../requests/request";
import { type Chunk16, peakOf, to16Bit } from "./RecordSamples";

/** Frames of a chunk; five seconds or so, which are made ready within some milliseconds. */
const CHUNK_FRAMES = 2 ** 18;
/** While it is decoded each sample takes four bytes, and then two beside them. */
const BYTES_A_SAMPLE = 6;
/** What a record may take while it is decoded, where the browser does not say how much memory there is. */
const ROOM_BYTES = 800e6;
/** Of what the device has. */
const SHARE = 1 / 6;

/** How far a record is on its way into memory. */
export interface DecodeProgress {
  step: "fetching" | "decoding";
  /** 0 to 1; of what is fetched. */
  fraction: number;
}

/** A record that this device cannot hold, or this browser not read; the message is in words for people. */
export class NotInMemory extends Error {
  override readonly name = "NotInMemory";
}

/**
 * Whether a record can be held while it is decoded.
 * @param deviceGigabytes as the browser tells it (Device Memory API), undefined where it does not
 */
export function hasRoom(durationSec: Seconds, rateHz: Hertz, deviceGigabytes?: number): boolean {
  const room = deviceGigabytes === undefined ? ROOM_BYTES : deviceGigabytes * 1e9 * SHARE;
  return durationSec * rateHz * 2 * BYTES_A_SAMPLE <= room;
}

/** Fetches the bytes of a record. @throws RequestError in words for people; the signal's reason where that ended it */
export async function fetchRecord(
  url: string,
  signal: AbortSignal,
  onProgress: (progress: DecodeProgress) => void,
): Promise<ArrayBuffer> {
  const response = await reach(
    url,
    { signal },
    "The record could not be fetched into memory: the server was not reached.",
  );
  if (!response.ok) throw new NotInMemory("The record could not be fetched into memory.");
  const total = Number(response.headers.get("content-length"));
  if (!response.body || !total) return response.arrayBuffer();
  const bytes = new Uint8Array(total);
  let length = 0;
  for (const reader = response.body.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) break;
    if (length + value.length > total) throw new NotInMemory("The record is longer than the server said.");
    bytes.set(value, length);
    length += value.length;
    onProgress({ step: "fetching", fraction: length / total });
  }
  if (length < total) throw new NotInMemory("The record broke off on its way here.");
  return bytes.buffer;
}

/** Decodes a whole record at a context's rate. @throws NotInMemory where this browser cannot read it */
export async function decodeRecord(bytes: ArrayBuffer, context: BaseAudioContext): Promise<AudioBuffer> {
  try {
    return await context.decodeAudioData(bytes);
  } catch {
    throw new NotInMemory("This browser cannot decode the record as a whole.");
  }
}

/** Highest sample of a record, 1 at least; leaves the page time between two chunks. */
export async function peakOfRecord(decoded: AudioBuffer, signal: AbortSignal): Promise<number> {
  let peak = 1;
  for (let at = 0; at < decoded.length; at += CHUNK_FRAMES) {
    const chunk = channelsOf(decoded).map((channel) => channel.subarray(at, at + CHUNK_FRAMES));
    peak = Math.max(peak, peakOf(chunk));
    await pause(signal);
  }
  return peak;
}

/** Hands a record on in chunks of 16 bits, of two channels at most; leaves the page time between two. */
export async function inChunks(
  decoded: AudioBuffer,
  peak: number,
  signal: AbortSignal,
  take: (chunk: Chunk16) => void,
): Promise<void> {
  const channels = channelsOf(decoded);
  for (let at = 0; at < decoded.length; at += CHUNK_FRAMES) {
    take(channels.map((channel) => to16Bit(channel.subarray(at, at + CHUNK_FRAMES), peak)));
    await pause(signal);
  }
}

function channelsOf(decoded: AudioBuffer): Float32Array[] {
  return Array.from({ length: Math.min(2, decoded.numberOfChannels) }, (_, channel) =>
    decoded.getChannelData(channel),
  );
}

async function pause(signal: AbortSignal): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 0));
  signal.throwIfAborted();
}
