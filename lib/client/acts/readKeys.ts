/** One press of a key, as a KeyboardEvent tells of it (UI Events, "KeyboardEvent key values"). */
export interface KeyPress {
  key: string;
  code: string;
  ctrlKey: boolean;
  shiftKey: boolean;
  altKey: boolean;
  /** As it is printed: `Shift ←`. */
  label: string;
}

const NAMED: Readonly<Record<string, string>> = {
  Space: " ",
  Esc: "Escape",
  PgUp: "PageUp",
  PgDn: "PageDown",
  "←": "ArrowLeft",
  "→": "ArrowRight",
  "↑": "ArrowUp",
  "↓": "ArrowDown",
  Enter: "Enter",
  Backspace: "Backspace",
  Home: "Home",
};
const MODIFIERS: Readonly<Record<string, "ctrlKey" | "shiftKey" | "altKey">> = {
  Ctrl: "ctrlKey",
  Shift: "shiftKey",
  Alt: "altKey",
};

/**
 * Reads keys as they are printed: `Shift ← →` is two of them, `~ or $` the first of two that do the same.
 * @returns null where what is meant is typed rather than pressed, such as `1–7 or A–G`
 */
export function readKeys(printed: string): KeyPress[] | null {
  const held = { ctrlKey: false, shiftKey: false, altKey: false };
  const holding: string[] = [];
  const presses: KeyPress[] = [];
  for (const sign of (printed.split(" or ")[0] ?? "").split(" ")) {
    const modifier = MODIFIERS[sign];
    if (modifier && presses.length === 0) {
      held[modifier] = true;
      holding.push(sign);
      continue;
    }
    const isItself = /^F\d{1,2}$/.test(sign) || ([...sign].length === 1 && sign !== "…");
    const key = NAMED[sign] ?? (isItself ? sign : null);
    if (key === null) return null;
    presses.push({
      ...held,
      key: cased(key, held.shiftKey),
      code: codeOf(key),
      label: [...holding, sign].join(" "),
    });
  }
  return presses.length > 0 ? presses : null;
}

function cased(key: string, isShifted: boolean): string {
  return /^[A-Za-z]$/.test(key) ? (isShifted ? key.toUpperCase() : key.toLowerCase()) : key;
}

/** Where it lies on a keyboard; only letters and digits are told apart by that. */
function codeOf(key: string): string {
  if (/^[A-Za-z]$/.test(key)) return `Key${key.toUpperCase()}`;
  return /^\d$/.test(key) ? `Digit${key}` : key;
}
