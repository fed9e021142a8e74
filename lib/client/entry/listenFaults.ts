/** What hinders the page from hearing a keyboard or a microphone, in words: what happened and what can be done. */

const TYPE_INSTEAD = "Notes can be typed meanwhile.";
const NEEDS_HTTPS =
  "Browsers let a page listen only where its address begins with https, or on the machine that serves it.";

/**
 * @param thrown by the Web MIDI API; a NotSupportedError also where the browser has none
 * @param portName of the keyboard that could not be opened; nothing where none could be asked for
 */
export function midiFault(thrown: unknown, isSecure: boolean, portName?: string | null): string {
  if (portName !== undefined)
    return `${portName || "A keyboard"} is held by another program. Close that, then unplug the keyboard and plug it in again.`;
  if (!isSecure) return `${NEEDS_HTTPS} ${TYPE_INSTEAD}`;
  switch (nameOf(thrown)) {
    case "NotSupportedError":
      return `This browser cannot hear a MIDI keyboard; Chrome and Edge can, Safari cannot. ${TYPE_INSTEAD}`;
    case "NotAllowedError":
    case "SecurityError":
      return `The browser keeps MIDI from this page. Allow it beside the address, then press keyboard again. ${TYPE_INSTEAD}`;
    default:
      return `The browser could not reach any MIDI keyboard. Plug it in anew and press keyboard again. ${TYPE_INSTEAD}`;
  }
}

/** @param thrown by getUserMedia (Media Capture and Streams) or by what listens to it */
export function microphoneFault(thrown: unknown, isSecure: boolean): string {
  if (!isSecure) return `${NEEDS_HTTPS} ${TYPE_INSTEAD}`;
  switch (nameOf(thrown)) {
    case "NotSupportedError":
      return `This browser cannot hear a microphone. ${TYPE_INSTEAD}`;
    case "NotAllowedError":
    case "SecurityError":
      return `The browser keeps the microphone from this page. Allow it beside the address, then press microphone again. ${TYPE_INSTEAD}`;
    case "NotFoundError":
      return `There is no microphone. Plug one in and press microphone again. ${TYPE_INSTEAD}`;
    case "NotReadableError":
      return `The microphone is held by another program. Close that and press microphone again. ${TYPE_INSTEAD}`;
    default:
      return `The microphone could not be opened. Press microphone again. ${TYPE_INSTEAD}`;
  }
}

function nameOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.name : "";
}
