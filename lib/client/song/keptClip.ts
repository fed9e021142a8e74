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
  try {
    localStorage.setItem(KEY, JSON.stringify(clip));
  } catch {
    // A browser that keeps nothing still has it until the page closes.
  }
}

/** Null where nothing was copied. */
export function keptClip(): KeptClip | null {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    if (isKept(value)) return value;
  } catch {
    // What cannot be read is as good as nothing.
  }
  return latest;
}

/** Whoever uses this browser next is not to find it. */
export function forgetClip(): void {
  latest = null;
  try {
    localStorage.removeItem(KEY);
  } catch {
    // A browser that keeps nothing has nothing to give up.
  }
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
