"use client";

import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { rowWords } from "@/lib/client/acts/keyRow";
import styles from "./dialog.module.css";
import { KEY_TABLE } from "./keyTable";

export function KeysDialog({ onClose }: { onClose: () => void }) {
  return (
    <Sheet title="Keys" size="wide" onClose={onClose}>
      <div className={`${sheet.body} ${styles.keys}`}>
        {KEY_TABLE.map(({ name, keys }) => (
          <section key={name} aria-label={name}>
            <h3>{name}</h3>
            <dl>
              {keys.map(([key, act]) => (
                <div key={key}>
                  <dt>
                    <kbd className={controls.key}>{key}</kbd>
                  </dt>
                  <dd>{rowWords(act)}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Sheet>
  );
}
