"use client";

import controls from "@/app/parts/controls.module.css";
import { useDesk } from "./DeskContext";
import lanes from "./lanes.module.css";
import styles from "./parts.module.css";

/** Under the lanes: the way to the parts of the song, for whoever may add one or has several to choose among. */
export function PartsRow() {
  const { parts, mayWrite } = useDesk();
  if (!mayWrite && !parts.areSeveral) return null;
  return (
    <div className={`${lanes.row} ${styles.row}`}>
      <span />
      <button type="button" className={controls.link} onClick={() => parts.openSheet(true)}>
        {parts.areSeveral ? "Parts of the song" : "Add a part"}
      </button>
    </div>
  );
}
