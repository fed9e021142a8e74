import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import { UPLOAD_HEADERS } from "@/lib/contracts/uploads";
import { errorOf, RequestError } from "../requests/request";

/** How far an upload is. */
export interface UploadProgress {
  sentBytes: number;
  totalBytes: number;
  /** Smoothed; 0 until something was measured. */
  bytesPerSec: number;
}

/** The person stopped the upload. */
export class UploadCancelled extends Error {
  override readonly name = "UploadCancelled";
}

/** An upload under way. */
export interface Upload {
  /** @throws RequestError in the server's words; UploadCancelled after {@link cancel} */
  done: Promise<SongRow>;
  cancel(): void;
}

/** Weight of the newest measurement in the smoothed speed. */
const SPEED_WEIGHT = 0.3;

/**
 * Sends a recording's bytes as they are. XMLHttpRequest, since fetch tells nothing of what was sent so far.
 */
export function startUpload(
  bookId: string,
  recording: { body: Blob; fileName: string; title: string },
  onProgress: (progress: UploadProgress) => void,
): Upload {
  const call = new XMLHttpRequest();
  const done = new Promise<SongRow>((resolve, reject) => {
    let lastAtMs = performance.now();
    let lastBytes = 0;
    let bytesPerSec = 0;
    call.upload.addEventListener("progress", (event) => {
      const nowMs = performance.now();
      const measured = ((event.loaded - lastBytes) / Math.max(1, nowMs - lastAtMs)) * 1000;
      bytesPerSec = bytesPerSec === 0 ? measured : bytesPerSec + SPEED_WEIGHT * (measured - bytesPerSec);
      lastAtMs = nowMs;
      lastBytes = event.loaded;
      onProgress({ sentBytes: event.loaded, totalBytes: event.total || recording.body.size, bytesPerSec });
    });
    call.addEventListener("load", () => {
      if (call.status >= 200 && call.status < 300) resolve(JSON.parse(call.responseText) as SongRow);
      else reject(errorOf(call.responseText, call.status));
    });
    call.addEventListener("abort", () =>
      reject(new UploadCancelled("The upload was cancelled. Nothing was kept.")),
    );
    call.addEventListener("error", () =>
      reject(
        new RequestError(
          "The connection broke before the recording was there. Nothing was kept. Add the file again.",
          null,
          0,
        ),
      ),
    );
  });
  call.open("POST", api.songs(bookId));
  call.setRequestHeader("content-type", "application/octet-stream");
  call.setRequestHeader(UPLOAD_HEADERS.fileName, encodeURIComponent(recording.fileName));
  call.setRequestHeader(UPLOAD_HEADERS.title, encodeURIComponent(recording.title));
  call.send(recording.body);
  return { done, cancel: () => call.abort() };
}

/** The title a file gets where nobody gave one: its name without its ending. */
export function titleOf(fileName: string): string {
  const bare = fileName
    .replace(/\.[A-Za-z0-9]{1,5}$/, "")
    .replace(/_+/g, " ")
    .trim();
  return (bare || fileName).slice(0, 200);
}
