import type { Desk } from "./DeskContext";

/** Acts that are fetched apart from the page. */
export interface LaterActs<Acts> {
  /** Fetches them ahead of time; rejects where they do not come. */
  fetch(): Promise<void>;
  /** The acts at once; null where they have not come yet. */
  here(desk: Desk): Acts | null;
  /** Does one of them, on what is in hand by then, as soon as they have come; says so where they do not. */
  with(desk: Desk, act: (acts: Acts) => void): Promise<void>;
}

/**
 * Has acts fetched when they are first wanted.
 * @param fetchMake imports what makes them for a desk
 * @param name how a sentence that says what did not come begins
 */
export function laterActs<Acts>(
  fetchMake: () => Promise<(desk: Desk) => Acts>,
  name: string,
): LaterActs<Acts> {
  let make: ((desk: Desk) => Acts) | null = null;
  async function fetch() {
    make ??= await fetchMake();
  }
  const here = (desk: Desk) => make?.(desk) ?? null;
  return {
    fetch,
    here,
    async with(desk, act) {
      try {
        await fetch();
      } catch {
        desk.say(`${name} could not be fetched, so nothing was changed. Check the connection and try again.`);
        return;
      }
      const acts = here(desk.now());
      if (acts) act(acts);
    },
  };
}
