import { type ErrorCode, errorMessage } from "@/lib/contracts/errors";

/** What can be wrong with a record; the words for each lie in the table of errors. */
export type MediaErrorCode = Extract<
  ErrorCode,
  | "not-audio"
  | "empty"
  | "cut-short"
  | "wrong-type"
  | "silent"
  | "too-long"
  | "too-large"
  | "needs-ffmpeg"
  | "damaged"
  | "time-limit"
>;

export type MediaErrorDetails = Readonly<Record<string, string>>;

/** A record that cannot be taken, with the code that its words are found by. */
export class MediaError extends Error {
  override readonly name = "MediaError";

  constructor(
    readonly code: MediaErrorCode,
    /** Fills the `{name}` places of the message: `limit` for too-long and too-large, `declared` and `found` for wrong-type. */
    readonly details: MediaErrorDetails = {},
    options?: ErrorOptions,
  ) {
    super(errorMessage(code, details), options);
  }
}

/**
 * The error for a record longer than may be.
 * @param rateHz where the record may be no longer for its high sample rate
 */
export function tooLong(maxDurationSec: number, rateHz: number | null = null): MediaError {
  const minutes = Number((maxDurationSec / 60).toFixed(1));
  const length =
    minutes < 1 ? `${maxDurationSec} seconds` : minutes === 1 ? "1 minute" : `${minutes} minutes`;
  return new MediaError("too-long", {
    limit: rateHz === null ? length : `${length} at its sample rate of ${rateHz / 1000} kHz`,
  });
}

/** The error for a file larger than may be. */
export function tooLarge(maxBytes: number): MediaError {
  return new MediaError("too-large", { limit: `${Number((maxBytes / 1e6).toFixed(1))} MB` });
}
