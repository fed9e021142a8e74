"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { AddPart } from "./AddPart";
import { useDesk } from "./DeskContext";
import { PartRow } from "./PartRow";
import styles from "./parts.module.css";

/** All parts of the song: which is in hand, how they are called and what they hold; adding one and taking one away. */
export function PartsSheet({ onClose }: { onClose: () => void }) {
  const { parts, opened, mayWrite } = useDesk();
  const [gone, setGone] = useState<string | null>(null);
  return (
    <Sheet title="Parts of the song" onClose={onClose}>
      <div className={sheet.body}>
        <ul className={styles.list}>
          {parts.list.map((part) => (
            <PartRow key={part.id} part={part} onGone={setGone} />
          ))}
        </ul>
        <p className={styles.gone} role="status">
          {gone}{" "}
          {gone ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => {
                opened.acts.takeBack();
                setGone(null);
              }}
            >
              Undo
            </button>
          ) : null}
        </p>
        {mayWrite ? <AddPart onAdded={onClose} /> : null}
      </div>
    </Sheet>
  );
}
