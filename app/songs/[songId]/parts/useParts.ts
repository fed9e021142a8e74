import { useState, useSyncExternalStore } from "react";
import { KeptParts, type PartsShown } from "@/lib/client/lanes/KeptParts";
import { browserStore } from "@/lib/client/page/browserStore";
import type { SongPart } from "@/lib/document/read/SongSnapshot";

/** The parts of the song, as the page has them: one of them is in hand, and all acts on the part are about that one. */
export interface Parts {
  /** In their order, as this person may see them. */
  list: readonly SongPart[];
  atHand: SongPart;
  /** Whether there are more than the first. */
  areSeveral: boolean;
  /** How a part is called; the one in hand where no id is given. */
  nameOf(id?: string): string;
  kept: KeptParts;
  isSheetOpen: boolean;
  openSheet(isOpen: boolean): void;
}

/** Which part this person has in hand, and which are folded away, kept in this browser. */
export function useKeptParts(userId: string, songId: string) {
  const [kept] = useState(() => new KeptParts({ userId, songId }, browserStore));
  const shown = useSyncExternalStore(kept.watch, kept.now, kept.now);
  const [isSheetOpen, openSheet] = useState(false);
  return { kept, shown, isSheetOpen, openSheet };
}

/** What is kept of the parts: the one that was taken in hand, and those that are folded. */
export function useKeptShown({ kept }: Pick<Parts, "kept">): PartsShown {
  return useSyncExternalStore(kept.watch, kept.now, kept.now);
}
