import { api } from "@/lib/contracts/api";
import { TAKE_HEADER, TAKE_MEDIA_TYPE, type Take } from "@/lib/contracts/takes";
import { errorOf, RequestError } from "../requests/request";
import type { UnsentTake } from "./UnsentTakes";

/**
 * Sends a take. XMLHttpRequest, since fetch tells nothing of what was sent so far.
 * @param onProgress told the fraction that is sent, 0 to 1
 * @throws RequestError in the server's words; the signal's reason where that ended it
 */
export function sendTake(
  { id, songId, about, sound }: UnsentTake,
  onProgress: (fraction: number) => void,
  signal: AbortSignal,
): Promise<Take> {
  return new Promise((resolve, reject) => {
    signal.throwIfAborted();
    const call = new XMLHttpRequest();
    call.upload.addEventListener("progress", ({ loaded }) =>
      onProgress(Math.min(1, loaded / Math.max(1, sound.size))),
    );
    call.addEventListener("load", () => {
      if (call.status >= 200 && call.status < 300) resolve(JSON.parse(call.responseText) as Take);
      else reject(errorOf(call.responseText, call.status));
    });
    call.addEventListener("error", () =>
      reject(new RequestError("The server could not be reached.", null, 0)),
    );
    call.addEventListener("abort", () => reject(signal.reason));
    signal.addEventListener("abort", () => call.abort(), { once: true });
    call.open("PUT", api.take(songId, id));
    call.setRequestHeader("content-type", TAKE_MEDIA_TYPE);
    call.setRequestHeader(TAKE_HEADER, encodeURIComponent(JSON.stringify(about)));
    call.send(sound);
  });
}
