/** What keeps the page from recording, in words: what happened, what was kept, what can be done. */

const NEEDS_HTTPS =
  "Browsers let a page listen only where its address begins with https, or on the machine that serves it. Nothing was recorded.";

/** @param thrown by getUserMedia (Media Capture and Streams), or by what takes its sound in */
export function captureFault(thrown: unknown, isSecure: boolean): string {
  if (!isSecure) return NEEDS_HTTPS;
  switch (thrown instanceof Error || thrown instanceof DOMException ? thrown.name : "") {
    case "NotAllowedError":
    case "SecurityError":
      return "The browser keeps the microphone from this page. Nothing was recorded. Allow it beside the address, then record again.";
    case "NotFoundError":
      return "There is no microphone or line to record by. Nothing was recorded. Plug one in, then record again.";
    case "OverconstrainedError":
      return "The input that was chosen is not there. Nothing was recorded. Plug it in, or choose another under Listening.";
    case "NotReadableError":
      return "The input is held by another program. Nothing was recorded. Close that, then record again.";
    case "NotSupportedError":
      return "This browser cannot record. Nothing was recorded. Chrome, Edge, Firefox and Safari can, in their present versions.";
    default:
      return "The input could not be opened. Nothing was recorded. Record again; if it fails again, plug it out and in.";
  }
}
