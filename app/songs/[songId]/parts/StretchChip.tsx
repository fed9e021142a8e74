"use client";

import { keepInView } from "@/lib/client/axis/timeAxis";
import { barName, stretchTimes } from "@/lib/client/questions/questionWords";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { useDesk } from "./DeskContext";
import styles from "./questions.module.css";

/** Where it is: a click brings it into view, and the playhead there. */
export function StretchChip({ stretch, go }: { stretch: HeardStretch; go?: () => void }) {
  const { axis, player, grid } = useDesk();
  const times = stretchTimes(stretch);
  return (
    <button
      type="button"
      className={styles.chip}
      aria-label={`Go to ${times}${grid ? `, ${barName(stretch, grid)}` : ""}`}
      onClick={() => {
        player.seek(stretch.startSec);
        if (go) go();
        else axis.change((now) => keepInView(keepInView(now, stretch.endSec, 8), stretch.startSec, 48));
      }}
    >
      {times}
    </button>
  );
}
