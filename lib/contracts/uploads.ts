/** What the upload form must know before it sends anything. */
export interface UploadLimits {
  maxBytes: number;
  maxDurationSec: number;
  /** False where no ffmpeg is found: the browser then decodes the rarer kinds itself before sending. */
  readsEverything: boolean;
}

/** Headers of `POST /api/books/:bookId/songs`, whose body is the file's bytes as they are. */
export const UPLOAD_HEADERS = {
  /** encodeURIComponent of the file's name. */
  fileName: "x-file-name",
  /** encodeURIComponent of the title; the file's name without its ending when missing. */
  title: "x-song-title",
} as const;
