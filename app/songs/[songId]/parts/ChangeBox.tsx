"use client";

import { useMemo } from "react";
import { sureText } from "@/lib/client/format/format";
import { textScale } from "@/lib/client/page/textScale";
import { typedChord } from "@/lib/client/song/typedChord";
import { isRun } from "@/lib/client/song/typedRun";
import { setChangeLabel } from "@/lib/document/commands/changes";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import styles from "./changes.module.css";
import { changeLine, changeText } from "./changeWords";
import { useDesk } from "./DeskContext";
import { LaneField } from "./LaneField";
import { runActs } from "./runActs";
import { numberKeyAt, selectedChange } from "./selection";
import { useKeptName } from "./useKeptName";
import { useStretchBox } from "./useStretchBox";

/** Narrower than this, a box shows its number alone; narrower still, nothing that would not fit. In text of the usual size. */
const LETTERS_FROM_PX = 56;
const LETTER_PX = 10;
const NUMBER_FROM_PX = 20;
const NO_CHORD_FROM_PX = 34;
const NARROW_PX = 44;
const SURE_FROM_PX = 96;
/** What the name of a change takes of its box. */
const NAME_PX = 60;

/** One change in its lane. A click selects it, a second one opens its field. */
export function ChangeBox({ change }: { change: ShownChange }) {
  const desk = useDesk();
  const { grid, opened, selection, select, typing, setTyping, mayWrite, nameOf } = desk;
  const selected = selectedChange(opened.song, selection);
  const { box, isSelected, isHeld, left, width } = useStretchBox("change", change, selected);
  const name = useKeptName(desk.axis, left, Math.max(0, width - NAME_PX));
  const key = numberKeyAt(opened.song, change.startSec);
  const { degree, rest, letters } = changeText(change.label, key);
  const isPencil = change.mark === "pencil";
  /** How wide it is for words. */
  const roomPx = width / textScale();
  const { homes, unseenHome } = opened.song;
  const line = useMemo(
    () => changeLine(change, numberKeyAt({ homes, unseenHome }, change.startSec), grid, nameOf),
    [change, homes, unseenHome, grid, nameOf],
  );
  if (isSelected && typing !== null)
    return (
      <div className={styles.typing}>
        <LaneField
          label={key ? "Chord, as a number or in letters" : "Chord, in letters: home is covered here"}
          placeholder={key ? "4, 2-, G/B" : "D7, Am, G/B"}
          left={left}
          width={Math.max(width, 96)}
          text={typing}
          onText={(text) => {
            if (!isRun(text)) return false;
            runActs(desk).open(text);
            return true;
          }}
          write={(text) => {
            const label = typedChord(text, key);
            return opened.acts.run((ctx) => setChangeLabel(ctx, change.id, label)) !== null;
          }}
        />
      </div>
    );
  return (
    <button
      ref={box}
      type="button"
      className={`${styles.change} ${isPencil ? styles.pencil : styles.ink} ${isSelected ? styles.selected : ""} ${isHeld ? styles.heldByOther : ""} ${roomPx < NARROW_PX ? styles.narrow : ""}`}
      style={{ left, width }}
      aria-pressed={isSelected}
      title={line}
      tabIndex={isSelected ? 0 : -1}
      data-change={`${change.id}.${change.stretch}`}
      onClick={() => select({ kind: "change", id: change.id, stretch: change.stretch })}
      onDoubleClick={() => mayWrite && setTyping("")}
    >
      <span className="unseen">{line}</span>
      <span ref={name} className={styles.inView} aria-hidden="true">
        {roomPx >= (degree.length > 2 ? NO_CHORD_FROM_PX : NUMBER_FROM_PX) ? (
          <span className={degree.length > 2 ? styles.noChord : styles.degree}>
            {degree}
            {rest ? <sup className={styles.quality}>{rest}</sup> : null}
          </span>
        ) : null}
        {roomPx >= LETTERS_FROM_PX + LETTER_PX * (rest.length + letters.length) ? (
          <span className={styles.letters}>{letters}</span>
        ) : null}
      </span>
      {isPencil && change.confidence !== null && roomPx >= SURE_FROM_PX ? (
        <em className={styles.sure} aria-hidden="true">
          {sureText(change.confidence)}
        </em>
      ) : null}
    </button>
  );
}
