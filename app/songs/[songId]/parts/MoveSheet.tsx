"use client";

import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { shortName } from "@/lib/client/copedents/copedentWords";
import { heldWords } from "@/lib/client/song/partAtHand";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";
import styles from "./parts.module.css";

/** To which of several parts the chosen events go. */
export function MoveSheet({
  parts,
  onChosen,
  onClose,
}: {
  parts: readonly SongPart[];
  onChosen: (part: SongPart) => void;
  onClose: () => void;
}) {
  const { nameOf } = useDesk().parts;
  return (
    <Sheet title="Move to part" onClose={onClose}>
      <div className={sheet.body}>
        <p className={controls.note}>
          Each sounds there as it does here, wherever that part's instrument has it; what it has not stays.
        </p>
        <ul className={styles.choices}>
          {parts.map((part) => (
            <li key={part.id}>
              <button type="button" className={controls.button} onClick={() => onChosen(part)}>
                {nameOf(part.id)}
                <span className={controls.note}>
                  {shortName(part.head.copedent)}, {heldWords(part)}
                </span>
              </button>
            </li>
          ))}
        </ul>
      </div>
    </Sheet>
  );
}
