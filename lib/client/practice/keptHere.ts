import { storedText, storeText } from "../page/storedText";

/** Where this browser keeps which passage of a song was at hand last. */
const AT_HAND = "liftbook.atHand.";
const DEVICE = "liftbook.device";

/** The passage that was at hand last in this browser; null where none was, or the browser keeps nothing. */
export function keptAtHand(songId: string): string | null {
  return storedText(AT_HAND + songId);
}

export function keepAtHand(songId: string, id: string | null): void {
  storeText(AT_HAND + songId, id);
}

/** Set where the browser keeps nothing: the page is then a device of its own. */
let unkeptDevice: string | null = null;

/** Names this browser, for counts that several devices of one person add to. */
export function deviceId(): string {
  const kept = storedText(DEVICE) ?? unkeptDevice;
  if (kept) return kept;
  // Ids need not be secret: 64 bits of chance tell one person's devices apart.
  const made = Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) =>
    byte.toString(16).padStart(2, "0"),
  ).join("");
  unkeptDevice = made;
  storeText(DEVICE, made);
  return made;
}
