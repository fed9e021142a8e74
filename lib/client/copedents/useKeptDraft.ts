import { useEffect, useRef, useState } from "react";
import { storedText, storeText } from "../page/storedText";
import type { ChartDraft } from "./ChartDraft";
import { keptText, readKeptDraft, standingOf } from "./keptDraft";

export interface DraftKeeping {
  /** Whether this browser has what is typed, so that the window may be closed. */
  isKept: boolean;
  /** What was typed here before while the chart was changed elsewhere, until a person takes it up or lets it go. */
  apart: { takeUp(): void; letGo(): void } | null;
}

/**
 * Keeps what is typed in this browser for as long as the server does not have it: a chart that cannot be read yet, or not
 * be sent. Whoever closes the window and comes back finds it as it was typed.
 * @param id of the copedent; null where nothing is edited
 * @param isUnsaved whether the server lacks anything of the draft
 * @param heldText the chart that the server holds, as JSON
 * @param readText the chart as last read without a fault, as JSON
 * @param restore puts a draft in the place of what is edited
 */
export function useKeptDraft({
  id,
  draft,
  isUnsaved,
  heldText,
  readText,
  restore,
}: {
  id: string | null;
  draft: ChartDraft;
  isUnsaved: boolean;
  heldText: string;
  readText: string;
  restore: (draft: ChartDraft) => void;
}): DraftKeeping {
  const key = id === null ? null : `liftbook copedent ${id}`;
  const [isOpen, setIsOpen] = useState(false);
  const [isKept, setIsKept] = useState(false);
  const [apart, setApart] = useState<ChartDraft | null>(null);
  const atOpening = useRef({ heldText, isDone: false });

  useEffect(() => {
    if (key === null || atOpening.current.isDone) return;
    atOpening.current.isDone = true;
    const kept = readKeptDraft(storedText(key));
    const standing = kept && standingOf(kept, atOpening.current.heldText);
    if (kept && standing === "on") restore(kept.draft);
    if (kept && standing === "apart") setApart(kept.draft);
    setIsOpen(true);
  }, [key, restore]);

  useEffect(() => {
    // What stands apart is not written over before a person has said what becomes of it.
    if (key === null || !isOpen || apart) return;
    const text = isUnsaved ? keptText({ heldText, readText, draft }) : null;
    setIsKept(storeText(key, text) && text !== null);
  }, [key, isOpen, apart, isUnsaved, heldText, readText, draft]);

  return {
    isKept,
    apart: apart && {
      takeUp() {
        restore(apart);
        setApart(null);
      },
      letGo: () => setApart(null),
    },
  };
}
