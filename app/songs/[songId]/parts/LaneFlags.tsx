"use client";

import { drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import type { Presence } from "@/lib/contracts/sync";
import { FIRST_PART } from "@/lib/document/records/storage";
import { useDesk } from "./DeskContext";
import styles from "./lanes.module.css";

/** The others' cursors in one lane, each with its name. */
export function LaneFlags({
  lane,
  partId,
  topOf,
}: {
  lane: NonNullable<Presence["cursor"]>["lane"];
  /** Of the lane of a part: which part. */
  partId?: string;
  /** Where in the lane a record lies, in pixels; the top of the lane where it is not given or not known. */
  topOf?: (recordId: string | null) => number;
}) {
  const { axis, opened } = useDesk();
  const drawing = useDrawing(axis);
  const { fromSec, toSec } = drawing;
  const toPx = drawnPx(drawing);
  return opened.others.map(({ clientId, user, cursor }) => {
    if (cursor?.lane !== lane || (partId && (cursor.partId ?? FIRST_PART) !== partId)) return null;
    if (cursor.timeSec < fromSec || cursor.timeSec > toSec) return null;
    return (
      <span
        key={clientId}
        className={styles.flag}
        style={{
          left: toPx(cursor.timeSec),
          top: topOf?.(cursor.recordId) ?? 0,
        }}
      >
        {user.name}
      </span>
    );
  });
}
