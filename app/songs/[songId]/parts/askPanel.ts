import { useSyncExternalStore } from "react";
import { Watched } from "@/lib/client/watched/Watched";
import type { HeardStretch } from "@/lib/hearing/Hearing";

/** What is being written: a question about a stretch, an answer to one, or one's own words anew. */
export type Writing =
  | { kind: "ask"; stretch: HeardStretch }
  | { kind: "reply"; id: string }
  | { kind: "reword"; id: string };

interface Asking {
  writing: Writing | null;
  /** The question whose card is to have the focus, once it is drawn. */
  focusId: string | null;
}

const NOTHING: Asking = { writing: null, focusId: null };

/** What is being asked or answered just now: the page's own. */
class AskPanel extends Watched<Asking> {
  write(writing: Writing): void {
    this.tell({ writing });
  }

  /** @param focusId whose card has the focus then */
  leave(focusId: string | null): void {
    this.tell({ writing: null, focusId });
  }

  focused(): void {
    if (this.now().focusId !== null) this.tell({ focusId: null });
  }
}

export const askPanel = new AskPanel(NOTHING);

export function useAsking(): Asking {
  return useSyncExternalStore(askPanel.watch, askPanel.now, () => NOTHING);
}
