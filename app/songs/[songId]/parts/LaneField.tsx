"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import { wordsOf } from "@/lib/client/requests/request";
import { useDesk } from "./DeskContext";
import styles from "./laneField.module.css";

/** The small field in which what is selected in a lane is written anew, in its place. */
export function LaneField({
  label,
  placeholder,
  left,
  width,
  text,
  onText,
  write,
}: {
  label: string;
  placeholder: string;
  left: number;
  width: number;
  text: string;
  /** Told what is typed: true where it goes on elsewhere, and this field is left unwritten. */
  onText?: (text: string) => boolean;
  /** Writes what was typed. @returns whether it was taken @throws where it cannot be read, in words */
  write: (text: string) => boolean;
}) {
  const { setTyping, say } = useDesk();
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
      if (write(text)) leave();
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
      className={`${styles.field} ${fault ? styles.fault : ""}`}
      style={{ left, width }}
      value={text}
      aria-label={label}
      aria-invalid={fault !== null}
      placeholder={placeholder}
      spellCheck={false}
      autoComplete="off"
      onChange={(event) => {
        setFault(null);
        setTyping(event.target.value);
        isOver.current = onText?.(event.target.value) === true;
      }}
      onKeyDown={onKeyDown}
      onBlur={onBlur}
    />
  );
}
