import { browserStore } from "./browserStore";

/** What the browser keeps under a key; null where there is nothing, or where it keeps nothing at all. */
export function storedText(key: string): string | null {
  try {
    return browserStore.getItem(key);
  } catch {
    return null;
  }
}

/**
 * Keeps a text in this browser; null takes away what was kept.
 * @returns whether the browser did so
 */
export function storeText(key: string, text: string | null): boolean {
  try {
    if (text === null) browserStore.removeItem(key);
    else browserStore.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}
