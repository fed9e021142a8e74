"use client";

import type { CSSProperties } from "react";
import controls from "@/app/parts/controls.module.css";
import { engagedStage } from "@/lib/client/song/partTyping";
import type { Copedent } from "@/lib/instrument/Copedent";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";

/** Every pedal and lever of the guitar, on or off; nothing where it has none. */
export function PedalToggles({
  engaged,
  disabled,
  toggle,
}: {
  /** Stages that are engaged. */
  engaged: readonly string[];
  disabled: boolean;
  /** @param id of the pedal or lever */
  toggle: (id: string) => void;
}) {
  const { copedent } = useDesk();
  if (copedent.changes.length === 0) return null;
  return (
    <div className={styles.wide}>
      <span className={styles.legend}>Pedals and levers</span>
      <div className={styles.pedals} style={{ "--sign-ch": `${widestSign(copedent)}ch` } as CSSProperties}>
        {copedent.changes.map((change) => {
          const stage = engagedStage(change, engaged);
          return (
            <button
              key={change.id}
              type="button"
              className={controls.toggle}
              aria-pressed={stage !== undefined}
              aria-label={change.label}
              title={change.label}
              disabled={disabled}
              onClick={() => toggle(change.id)}
            >
              {stage ?? change.id}
            </button>
          );
        })}
      </div>
    </div>
  );
}

/** Signs of the longest name that a pedal or lever shows, all its stages engaged. */
function widestSign({ changes }: Copedent): number {
  return Math.max(1, ...changes.map(({ id, stages }) => id.length * stages.length));
}
