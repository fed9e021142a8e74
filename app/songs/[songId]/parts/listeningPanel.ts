import { useSyncExternalStore } from "react";
import { Watched } from "@/lib/client/watched/Watched";

const CLOSED = { isOpen: false };

/** Whether the panel of listening is open: the page's own. */
class ListeningPanel extends Watched<{ isOpen: boolean }> {
  open(isOpen: boolean): void {
    if (isOpen !== this.now().isOpen) this.tell({ isOpen });
  }
}

export const listeningPanel = new ListeningPanel(CLOSED);

export function useListeningPanel(): { isOpen: boolean } {
  return useSyncExternalStore(listeningPanel.watch, listeningPanel.now, () => CLOSED);
}
