"use client";

import { type CSSProperties, useMemo } from "react";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { textScale } from "@/lib/client/page/textScale";
import { type AskedBox, askedLayout, rowsOf } from "@/lib/client/questions/askedLayout";
import { openQuestions } from "@/lib/client/questions/openQuestions";
import { countWords } from "@/lib/client/questions/questionWords";
import styles from "./asked.module.css";
import { useDesk } from "./DeskContext";
import { handScrollOn } from "./handScrollOn";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import lanes from "./lanes.module.css";
import { QuestionBox } from "./QuestionBox";
import { selectedQuestion } from "./selection";
import { useSpanDrag } from "./useSpanDrag";

/** What was asked, where it was asked: open questions filled, settled ones hollow and said to be so. */
export function AskedLane() {
  const { axis, opened, selection } = useDesk();
  const { fromSec, toSec, pxPerSec } = useDrawing(axis);
  const { questions } = opened.song;
  const drag = useSpanDrag();
  const rows = useMemo(() => rowsOf(questions), [questions]);
  const scale = textScale();
  // Laid out once for a zoom; scrolling only looks up what is in view of it.
  const boxes = useMemo(
    () => askedLayout(questions, { pxPerSec, rows, scale }),
    [questions, pxPerSec, rows, scale],
  );
  const inView = useMemo(() => withinStretch(boxes, fromSec, toSec), [boxes, fromSec, toSec]);
  const selected = selectedQuestion(opened.song, selection);
  const open = openQuestions(questions).length;
  const isDrawn = inView.some((box) => box.kind === "one" && box.question === selected);

  return (
    <section className={`${lanes.lane} ${styles.lane}`} aria-label="Asked">
      <LaneName name="Asked" note={open === 0 ? "all settled" : `${open} open`} />
      <div
        className={`${lanes.track} ${styles.asked}`}
        style={{ "--rows": rows } as CSSProperties}
        onScroll={handScrollOn(axis)}
        {...drag}
      >
        <LaneLayer axis={axis}>
          {inView.map((box) =>
            box.kind === "one" ? (
              <QuestionBox key={box.question.id} question={box.question} row={box.row} endSec={box.endSec} />
            ) : (
              <SeveralBox key={`several.${box.questions[0]?.id}`} box={box} />
            ),
          )}
          {selected && !isDrawn && selected.endSec >= fromSec && selected.startSec <= toSec ? (
            <QuestionBox question={selected} row={0} endSec={selected.endSec} />
          ) : null}
          <LaneFlags lane="asked" />
        </LaneLayer>
      </div>
    </section>
  );
}

/** Several questions that there is no room for: how many, and the way to where there is. */
function SeveralBox({ box }: { box: AskedBox & { kind: "several" } }) {
  const { axis } = useDesk();
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const open = openQuestions(box.questions).length;
  const words = countWords(box.questions.length);
  const line = `${words}, ${open === 0 ? "all settled" : `${open} open`}; zoom in on them`;
  const left = Math.round((box.startSec - anchorSec) * pxPerSec) + 1;
  const width = Math.round((box.endSec - box.startSec) * pxPerSec) - 2;
  const lastSec = Math.max(...box.questions.map(({ endSec }) => endSec));
  return (
    <button
      type="button"
      className={`${styles.box} ${open === 0 ? styles.settled : styles.open} ${styles.several}`}
      style={{ left, width }}
      title={line}
      tabIndex={-1}
      onClick={() => axis.change((now) => showStretch(now, box.startSec, lastSec))}
    >
      <span className="unseen">{line}</span>
      <span aria-hidden="true">{words}</span>
    </button>
  );
}
