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
  const whyNot = span && whyNotHeard(span);

  function caption(): string {
    if (underWay) return stepWords(underWay.step);
    if (whyNot) return whyNot;
    const last = opened.song.passages.find(
      (each) => span && each.startSec < span.endSec && each.endSec > span.startSec,
    );
    return last
      ? `Last heard for ${nameOf(last.by)}, ${momentText(last.atMs)}`
      : "The machine listens and pencils; ink stays.";
  }

  // One button for both acts, so that whoever pressed it by the keyboard stays on it.
  return (
    <div className={`${styles.here} ${underWay ? styles.underWay : ""}`}>
      <button
        type="button"
        className={controls.button}
        disabled={!underWay && whyNot !== null}
        onClick={() => (underWay ? hearer?.cancel() : hearAtOnce(desk))}
      >
        {underWay ? "Cancel" : "Hear the notes here"}
      </button>
      <p>{caption()}</p>
      {underWay ? <Bar label={caption()} fraction={underWay.step.fraction} /> : null}
      {fault ? <p className={`${controls.fault} ${styles.fault}`}>{fault}</p> : null}
    </div>
  );
}
