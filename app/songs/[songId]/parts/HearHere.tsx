"use client";

import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { momentText } from "@/lib/client/format/format";
import { stepWords, whyNotHeard } from "@/lib/client/hearing/passage/passageWords";
import { usePassageState } from "@/lib/client/hearing/passage/usePassageHearer";
import { useDesk } from "./DeskContext";
import { hearAtOnce } from "./hearAtOnce";
import styles from "./hearHere.module.css";
import { selectedSpan } from "./selection";

/** Has the notes of the selection heard at once; how far that is, and what came of it last. */
export function HearHere() {
  const desk = useDesk();
  const { opened, selection, grid, hearer, mayWrite, nameOf } = desk;
  const { underWay, fault } = usePassageState(hearer);
  const span = selectedSpan(opened.song, selection, grid);
  if (!mayWrite || !(span || underWay)) return null;
  if (underWay) {
    const words = stepWords(underWay.step);
    return (
      <div className={`${styles.here} ${styles.underWay}`}>
        <p>{words}</p>
        <Bar label={words} fraction={underWay.step.fraction} />
        <button type="button" className={controls.button} onClick={() => hearer?.cancel()}>
          Cancel
        </button>
      </div>
    );
  }
  const whyNot = span && whyNotHeard(span);
  const last = span
    ? opened.song.passages.find((each) => each.startSec < span.endSec && each.endSec > span.startSec)
    : undefined;
  return (
    <div className={styles.here}>
      <button
        type="button"
        className={controls.button}
        disabled={whyNot !== null}
        onClick={() => hearAtOnce(desk)}
      >
        Hear the notes here
      </button>
      <p>
        {whyNot ??
          (last
            ? `Last heard for ${nameOf(last.by)}, ${momentText(last.atMs)}`
            : "The machine listens and pencils; ink stays.")}
      </p>
      {fault ? <p className={`${controls.fault} ${styles.fault}`}>{fault}</p> : null}
    </div>
  );
}
