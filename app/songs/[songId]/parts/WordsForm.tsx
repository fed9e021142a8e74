"use client";

import {
  type FormEvent,
  type KeyboardEvent,
  type ReactNode,
  useEffect,
  useId,
  useRef,
  useState,
} from "react";
import controls from "@/app/parts/controls.module.css";
import { LONGEST_WORDS } from "@/lib/document/records/questions";
import { askPanel, useAsking } from "./askPanel";
import styles from "./questions.module.css";
import { useDrafts } from "./useDrafts";

/** A sheet is up well before so many frames have gone by. */
const MOST_FRAMES = 60;
/** From here on the signs that are left are counted. */
const COUNTED_FROM = LONGEST_WORDS - 200;

/**
 * Where a question or an answer is written: Enter sends it, Shift Enter begins a line, Escape gives it up and keeps the text.
 * @param draft by what name the text is kept until it is sent
 * @param cardId of the question whose card has the focus where it is given up; null where none has
 * @param beside what stands between the field and its acts
 */
export function WordsForm({
  label,
  draft,
  cardId,
  atFirst = "",
  act,
  placeholder,
  head,
  beside,
  send,
}: {
  label: string;
  draft: string;
  cardId: string | null;
  atFirst?: string;
  act: string;
  placeholder?: string;
  head?: ReactNode;
  beside?: ReactNode;
  /** @returns the question whose card has the focus then; null where it was not sent */
  send: (words: string) => string | null;
}) {
  const drafts = useDrafts();
  const [text, setText] = useState(() => drafts.textOf(draft) || atFirst);
  const field = useRef<HTMLTextAreaElement>(null);
  const hint = useId();
  const { writing } = useAsking();
  // Whoever asks again while the field is open is led back into it.
  useEffect(() => {
    if (writing === null) return;
    let frame = 0;
    // Once the sheet that it stands in on a narrow screen is up: until then nothing in it takes the focus.
    const lead = (framesLeft: number) => {
      const { current } = field;
      current?.focus();
      if (current && document.activeElement === current) {
        current.setSelectionRange(current.value.length, current.value.length);
        current.form?.scrollIntoView({ block: "nearest" });
      } else if (framesLeft > 0) frame = requestAnimationFrame(() => lead(framesLeft - 1));
    };
    frame = requestAnimationFrame(() => lead(MOST_FRAMES));
    return () => cancelAnimationFrame(frame);
  }, [writing]);
  const left = LONGEST_WORDS - text.trim().length;

  function onSubmit(event?: FormEvent) {
    event?.preventDefault();
    const sentTo = text.trim() === "" ? null : send(text);
    if (sentTo === null) return;
    drafts.write(draft, "");
    askPanel.leave(sentTo);
  }

  function onKeyDown(event: KeyboardEvent) {
    event.stopPropagation();
    if (event.nativeEvent.isComposing) return;
    if (event.key === "Escape") askPanel.leave(cardId);
    else if (event.key === "Enter" && !event.shiftKey) onSubmit();
    else return;
    event.preventDefault();
  }

  return (
    <form className={styles.form} onSubmit={onSubmit}>
      {head}
      <label className={controls.field}>
        {label}
        <textarea
          ref={field}
          className={`${controls.input} ${styles.words}`}
          rows={3}
          value={text}
          placeholder={placeholder}
          aria-describedby={hint}
          onChange={(event) => {
            setText(event.target.value);
            drafts.write(draft, event.target.value);
          }}
          onKeyDown={onKeyDown}
        />
      </label>
      {beside}
      <p className={styles.hint} id={hint}>
        {left < LONGEST_WORDS - COUNTED_FROM
          ? left < 0
            ? `${-left} characters too many`
            : `${left} characters left`
          : "Enter sends, Shift Enter begins a line. What you began is kept."}
      </p>
      <div className={styles.acts}>
        <button type="submit" className={controls.act} disabled={text.trim() === ""}>
          {act}
        </button>
        <button type="button" className={controls.plain} onClick={() => askPanel.leave(cardId)}>
          Not now
        </button>
      </div>
    </form>
  );
}
