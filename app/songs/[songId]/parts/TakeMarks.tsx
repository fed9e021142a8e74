"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { strokeWords } from "@/lib/client/takes/strokeWords";
import type { ListedTake } from "@/lib/client/takes/takeStates";
import type { StrokeJudged, TakeJudged } from "@/lib/fit/takes/TakeJudged";
import { useDesk } from "./DeskContext";
import styles from "./takes.module.css";

/** From here to the next mark a word has room beside its sign. */
const WORD_PX = 84;

/** Under each stroke of the part what was heard of it in the take, by a sign, and by a word where there is room. */
export function TakeMarks({ take: { judged } }: { take: ListedTake }) {
  const { axis } = useDesk();
  const { anchorSec, fromSec, toSec, pxPerSec } = useDrawing(axis);
  if (!judged) return null;
  const lasting = strokesInTime(judged);
  return (
    <div className={styles.marks} aria-hidden="true">
      {withinStretch(lasting, fromSec, toSec).map(({ stroke, endSec }) => {
        const { sign, word, kind } = strokeWords(stroke, judged.medianLateSec);
        const hasRoom = (endSec - stroke.startSec) * pxPerSec >= WORD_PX;
        return (
          <span
            key={`${stroke.eventId}.${stroke.startSec}`}
            className={`${styles.mark} ${styles[kind]}`}
            style={{ left: Math.round((stroke.startSec - anchorSec) * pxPerSec) }}
          >
            <b>{sign}</b>
            {hasRoom ? <span>{word}</span> : null}
          </span>
        );
      })}
    </div>
  );
}

interface Lasting {
  stroke: StrokeJudged;
  startSec: number;
  endSec: number;
}

const laidOut = new WeakMap<readonly StrokeJudged[], Lasting[]>();

/** Each stroke up to the next; the last to the end of the take. */
function strokesInTime({ strokes, endSec }: TakeJudged): Lasting[] {
  const known = laidOut.get(strokes);
  if (known) return known;
  const made = strokes.map((stroke, at) => ({
    stroke,
    startSec: stroke.startSec,
    endSec: strokes[at + 1]?.startSec ?? Math.max(endSec, stroke.startSec),
  }));
  laidOut.set(strokes, made);
  return made;
}
