import { type RefObject, useEffect, useRef } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import type { StretchPlace } from "@/lib/document/read/SongSnapshot";
import type { Seconds } from "@/lib/units/quantities";
import { useDesk } from "./DeskContext";

interface StretchBox {
  box: RefObject<HTMLButtonElement | null>;
  isSelected: boolean;
  /** Whether another person has it in hand. */
  isHeld: boolean;
  /** In CSS pixels of the lane's layer. */
  left: number;
  width: number;
}

/**
 * A change or a section as a box in its lane, marked `data-change` or `data-section`: where it lies, and the focus,
 * which goes with the selection from one to the next and leaves them when something else is selected.
 * @param selected the one that is selected in this lane
 */
export function useStretchBox<S extends StretchPlace & { id: string; startSec: Seconds; endSec: Seconds }>(
  kind: "change" | "section",
  { id, stretch, startSec, endSec }: S,
  selected: S | null,
): StretchBox {
  const { axis, opened, selection } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const isSelected = selected?.id === id && selected.stretch === stretch;
  const left = Math.round((startSec - anchorSec) * pxPerSec) + 1;
  const width = Math.max(3, Math.round((endSec - anchorSec) * pxPerSec) - left - 1);
  const isHeld = opened.others.some(({ cursor }) => cursor?.recordId === id);
  const keepsFocus = selection === null || selection.kind === kind;
  const box = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (isSelected && document.activeElement?.matches(`[data-${kind}]`))
      box.current?.focus({ preventScroll: true });
    else if (!isSelected && !keepsFocus && document.activeElement === box.current) box.current?.blur();
  }, [kind, isSelected, keepsFocus]);
  return { box, isSelected, isHeld, left, width };
}
