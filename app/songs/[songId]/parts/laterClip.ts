import type { clipActs } from "./clipActs";
import type { Desk } from "./DeskContext";

type ClipActs = ReturnType<typeof clipActs>;

let make: typeof clipActs | null = null;

/** Fetches what copying and pasting brings along: text tab and the search for places. */
export async function fetchClipActs(): Promise<void> {
  make ??= (await import("./clipActs")).clipActs;
}

/** The acts on the clipboard at once; null where they have not come yet. */
export function clipActsHere(desk: Desk): ClipActs | null {
  return make?.(desk) ?? null;
}

/** Does an act on the clipboard, on what is chosen by then, as soon as it has come. */
export async function withClip(desk: Desk, act: (acts: ClipActs) => void): Promise<void> {
  try {
    await fetchClipActs();
  } catch {
    desk.say(
      "Copying and pasting could not be fetched, so nothing was changed. Check the connection and try again.",
    );
    return;
  }
  const acts = clipActsHere(desk.now());
  if (acts) act(acts);
}
