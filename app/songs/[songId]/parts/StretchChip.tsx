"use client";

import controls from "@/app/parts/controls.module.css";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { barName, stretchTimes } from "@/lib/client/questions/questionWords";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { useDesk } from "./DeskContext";
import styles from "./questions.module.css";

/** Where it is: a click brings it into view, and the playhead there, unless `go` does. */
export function StretchChip({ stretch, go }: { stretch: HeardStretch; go?: () => void }) {
  const { axis, player, grid } = useDesk();
  const times = stretchTimes(stretch);
  return (
    <button
      type="button"
      className={`${controls.thumb} ${styles.chip}`}
      aria-label={`Go to ${times}${grid ? `, ${barName(stretch, grid)}` : ""}`}
      onClick={
        go ??
        (() => {
          player.seek(stretch.startSec);
          axis.change((now) => keepInView(keepInView(now, stretch.endSec, 8), stretch.startSec, 48));
        })
      }
    >
      {times}
    </button>
  );
}
