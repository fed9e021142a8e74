"use client";

import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { useDesk } from "./DeskContext";
import styles from "./playIn.module.css";

/** The field for notes to be placed: F2 in the part leads here, Enter takes the easiest place, Esc leads back. */
export function NotesField({
  text,
  hasNumbers,
  onType,
  onTake,
}: {
  text: string;
  /** Whether numbers of home can be written; not where home is covered. */
  hasNumbers: boolean;
  onType: (text: string) => void;
  /** Takes the easiest place. @returns whether it was written, so that one may go back */
  onTake: () => Promise<boolean>;
}) {
  const { isNaming, setNaming } = useDesk();
  const hintId = useId();
  const field = useRef<HTMLInputElement>(null);
  const cameFrom = useRef<Element | null>(null);

  useEffect(() => {
    if (!isNaming) return;
    cameFrom.current = document.activeElement;
    field.current?.focus();
    field.current?.select();
  }, [isNaming]);

  function goBack() {
    const before = cameFrom.current;
    cameFrom.current = null;
    field.current?.blur();
    if (before instanceof HTMLElement && before.isConnected) before.focus();
  }

  function onKeyDown(event: KeyboardEvent) {
    if (event.nativeEvent.isComposing) return;
    if (event.key === "Enter") {
      event.preventDefault();
      void onTake().then((isWritten) => isWritten && goBack());
    } else if (event.key === "Escape") {
      event.preventDefault();
      onType("");
      goBack();
    }
  }

  return (
    <div className={styles.notes}>
      <label className={styles.label}>
        Notes
        <input
          ref={field}
          className={controls.input}
          value={text}
          placeholder={hasNumbers ? "3 5 or B4 G4" : "B4 G4"}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          aria-describedby={hintId}
          onChange={(typed) => onType(typed.target.value)}
          onKeyDown={onKeyDown}
          onBlur={() => setNaming(false)}
        />
      </label>
      <p id={hintId} className={`${controls.small} ${styles.hint}`}>
        Numbers of home, going up: 3 5, b7; 3' and 3. an octave up, down. Or names: B4 G4. Enter takes the
        easiest place.
      </p>
    </div>
  );
}
