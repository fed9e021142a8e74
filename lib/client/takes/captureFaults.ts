/** What keeps the page from recording, in words: what happened, what was kept, what can be done. */

/** What the device was wanted for. */
export type CaptureAct = "record" | "measure";

const UNDONE = { record: "Nothing was recorded.", measure: "Nothing was measured." } as const;

/** @param thrown by getUserMedia (Media Capture and Streams), or by what takes its sound in */
export function captureFault(thrown: unknown, isSecure: boolean, act: CaptureAct): string {
  const undone = UNDONE[act];
  if (!isSecure)
    return `Browsers let a page listen only where its address begins with https, or on the machine that serves it. ${undone}`;
  switch (thrown instanceof Error || thrown instanceof DOMException ? thrown.name : "") {
    case "NotAllowedError":
    case "SecurityError":
      return `The browser keeps the microphone from this page. ${undone} Allow it beside the address, then ${act} again.`;
    case "NotFoundError":
      return `There is no microphone or line to record by. ${undone} Plug one in, then ${act} again.`;
    case "OverconstrainedError":
      return `The input that was chosen is not there. ${undone} Plug it in, or choose another under Listening.`;
    case "NotReadableError":
      return `The input is held by another program. ${undone} Close that, then ${act} again.`;
    case "NotSupportedError":
      return `This browser cannot record. ${undone} Chrome, Edge, Firefox and Safari can, in their present versions.`;
    default:
      return `The input could not be opened. ${undone} ${act === "record" ? "Record" : "Measure"} again; if it fails again, plug it out and in.`;
  }
}
