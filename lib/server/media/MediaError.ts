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

/** The error for a record longer than may be. */
export function tooLong(maxDurationSec: number): MediaError {
  const minutes = maxDurationSec / 60;
  const limit = minutes >= 1 ? `${Number(minutes.toFixed(1))} minutes` : `${maxDurationSec} seconds`;
  return new MediaError("too-long", { limit });
}

/** The error for a file larger than may be. */
export function tooLarge(maxBytes: number): MediaError {
  return new MediaError("too-large", { limit: `${Number((maxBytes / 1e6).toFixed(1))} MB` });
}
