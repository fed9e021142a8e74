/**
 * How much of a file a decoder is given at once, in bytes. A decoder gives back all that a piece holds before anyone
 * can stop it, and packets of silence hold much: some 40 kB of samples to the byte in FLAC. So pieces are small.
 */
const FEED_BYTES = 4_096;

/** Pieces of a file in order, each with how far through the file its end is (0 to 1). */
export function* pieces(file: Uint8Array): Generator<{ bytes: Uint8Array; fraction: number }> {
  for (let at = 0; at < file.length; at += FEED_BYTES) {
    const bytes = file.subarray(at, Math.min(file.length, at + FEED_BYTES));
    yield { bytes, fraction: (at + bytes.length) / file.length };
  }
}

/** What the decoder packages give back for a piece. */
export interface DecodedPiece {
  channelData: Float32Array[];
  samplesDecoded: number;
  sampleRate: number;
  errors: readonly unknown[];
}
