import { storedText, storeText } from "../page/storedText";

/** What was copied last in this browser: as the clipboard has it, and in our own form. */
export interface KeptClip {
  text: string;
  json: string;
}

const KEY = "liftbook.clip";
let latest: KeptClip | null = null;

/** Keeps a clip for buttons, which may not read the clipboard, and for other songs in this browser. */
export function keepClip(clip: KeptClip): void {
  latest = clip;
  // A browser that keeps nothing still has it until the page closes.
  storeText(KEY, JSON.stringify(clip));
}

/** Null where nothing was copied. */
export function keptClip(): KeptClip | null {
  try {
    const value: unknown = JSON.parse(storedText(KEY) ?? "null");
    if (isKept(value)) return value;
  } catch {
    // What cannot be read is as good as nothing.
  }
  return latest;
}

/** Whoever uses this browser next is not to find it. */
export function forgetClip(): void {
  latest = null;
  storeText(KEY, null);
}

function isKept(value: unknown): value is KeptClip {
  return (
    typeof value === "object" &&
    value !== null &&
    "text" in value &&
    "json" in value &&
    typeof value.text === "string" &&
    typeof value.json === "string"
  );
}
