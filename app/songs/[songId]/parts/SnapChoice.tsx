"use client";

import { SNAPS, type Snap } from "@/lib/client/axis/snap";
import { useSnap } from "@/lib/client/axis/useSnap";
import { useDesk } from "./DeskContext";
import styles from "./snap.module.css";
import { SNAP_WORDS } from "./snapWords";

/** To what times clicks, drags and steps of all lanes snap; at the end of the ruler, whatever lanes are in view. */
export function SnapChoice() {
  const { snap: store, grid } = useDesk();
  const snap = useSnap(store);
  if (!grid) return null;
  return (
    <div className={styles.corner}>
      <label
        className={styles.choice}
        title="To what times all lanes snap; | for the next. Alt leaves it for one drag"
      >
        <span>snap</span>
        <select
          value={snap}
          aria-label="Snap to"
          onChange={(change) => {
            store.choose(change.target.value as Snap);
            // The arrows are the lanes' again.
            change.target.blur();
          }}
        >
          {SNAPS.map((each) => (
            <option key={each} value={each}>
              {SNAP_WORDS[each]}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
