import { Watched } from "@/lib/client/watched/Watched";

/** Which take is asked about before it goes for good: the page's own. */
class TakeRemoval extends Watched<{ takeId: string | null }> {
  readonly ask = (takeId: string | null): void => this.tell({ takeId });
}

export const takeRemoval = new TakeRemoval({ takeId: null });
