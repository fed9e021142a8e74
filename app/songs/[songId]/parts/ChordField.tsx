"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import { wordsOf } from "@/lib/client/requests/request";
import { typedChord } from "@/lib/client/song/typedChord";
import { setChangeLabel } from "@/lib/document/commands/changes";
import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import styles from "./changes.module.css";
import { useDesk } from "./DeskContext";
import { keyAt } from "./selection";

/** The small field in which a change is typed anew: a number of the key or letters. */
export function ChordField({
  change,
  left,
  width,
  text,
}: {
  change: ShownChange;
  left: number;
  width: number;
  text: string;
}) {
  const { opened, setTyping, say } = useDesk();
  const field = useRef<HTMLInputElement>(null);
  /** Written or given up: what the browser then says of the lost focus is no wish to write. */
  const isOver = useRef(false);
  const [fault, setFault] = useState<string | null>(null);

  useEffect(() => field.current?.focus(), []);

  function leave() {
    isOver.current = true;
    setTyping(null);
  }

  function settle() {
    if (text.trim() === "") return leave();
    try {
      const label = typedChord(text, keyAt(opened.song, change.startSec));
      if (opened.acts.run((ctx) => setChangeLabel(ctx, change.id, label))) leave();
    } catch (thrown) {
      setFault(wordsOf(thrown));
      say(wordsOf(thrown));
    }
  }

  /** Going elsewhere writes what can be read, as Enter does: keyboards on a screen have no other way to end. */
  function onBlur() {
    if (isOver.current) return;
    settle();
    leave();
  }

  function onKeyDown(event: KeyboardEvent) {
    event.stopPropagation();
    if (event.key === "Enter") settle();
    else if (event.key === "Escape") {
      leave();
      say(null);
    } else return;
    event.preventDefault();
  }

  return (
    <input
      ref={field}
      className={`${styles.chordField} ${fault ? styles.chordFault : ""}`}
      style={{ left, width }}
      value={text}
      aria-label="Chord, as a number or in letters"
      aria-invalid={fault !== null}
      placeholder="4, 2-, G/B"
      spellCheck={false}
      autoComplete="off"
      onChange={(event) => {
        setFault(null);
        setTyping(event.target.value);
      }}
      onKeyDown={onKeyDown}
      onBlur={onBlur}
    />
  );
}
