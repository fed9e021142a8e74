"use client";

import { useRef, useState } from "react";
import { flushSync } from "react-dom";
import controls from "@/app/parts/controls.module.css";
import { shortName } from "@/lib/client/copedents/copedentWords";
import { heldWords } from "@/lib/client/song/partAtHand";
import { namedMeanwhile, type TypedName, typedOn } from "@/lib/client/song/typedName";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { LONGEST_NAME } from "@/lib/document/records/guards";
import { FIRST_PART } from "@/lib/document/records/storage";
import { useDesk } from "./DeskContext";
import styles from "./parts.module.css";
import { partsActs } from "./partsActs";

/** The question comes up in place of the button that was pressed: the focus goes with it, once. */
function focused(button: HTMLButtonElement | null) {
  button?.focus();
}

/** One part in the sheet of all. */
export function PartRow({ part, onGone }: { part: SongPart; onGone: (words: string | null) => void }) {
  const desk = useDesk();
  const { parts, mayWrite, nameOf } = desk;
  const acts = partsActs(desk);
  const [isAsking, ask] = useState(false);
  const takeAway = useRef<HTMLButtonElement>(null);
  const name = parts.nameOf(part.id);
  const isAtHand = part.id === parts.atHand.id;
  const held = heldWords(part);

  return (
    <li className={isAtHand ? styles.atHand : undefined}>
      <div className={styles.line}>
        {mayWrite ? (
          <NameField
            part={part}
            name={name}
            write={(text) => {
              acts.name(part.id, text);
              // Undo would now take the name back.
              onGone(null);
            }}
          />
        ) : (
          <strong>{name}</strong>
        )}
        <p className={controls.note}>
          {shortName(part.head.copedent)}, {held}
          {part.madeBy === null ? null : `; added by ${nameOf(part.madeBy)}`}
        </p>
        <div className={styles.acts}>
          <button
            type="button"
            className={isAtHand ? controls.plain : controls.button}
            aria-pressed={isAtHand}
            onClick={() => acts.take(part)}
          >
            {isAtHand ? "In hand" : "Take in hand"}
            <span className="unseen">: {name}</span>
          </button>
          {mayWrite && part.id !== FIRST_PART && !isAsking ? (
            <button ref={takeAway} type="button" className={controls.button} onClick={() => ask(true)}>
              Take away
              <span className="unseen"> {name}</span>
            </button>
          ) : null}
        </div>
      </div>
      {isAsking ? (
        <div className={styles.asking}>
          <p>
            {part.events.length > 0
              ? `${name} holds ${held}, rubbed out with it. Undo, or putting an event back, brings it back.`
              : `${name} is empty. Undo brings it back.`}
          </p>
          <div className={styles.acts}>
            <button
              type="button"
              className={controls.warn}
              ref={focused}
              onClick={() => onGone(acts.takeAway(part))}
            >
              Take {name} away
            </button>
            <button
              type="button"
              className={controls.button}
              onClick={() => {
                flushSync(() => ask(false));
                takeAway.current?.focus();
              }}
            >
              Keep it
            </button>
          </div>
        </div>
      ) : null}
    </li>
  );
}

/**
 * The name, written when the field is left or Enter is pressed; Escape gives it up. Where another renames the part meanwhile,
 * what is typed stays, and a person says which of the two it is.
 */
function NameField({
  part,
  name,
  write,
}: {
  part: SongPart;
  /** How it is called while it has no name of its own. */
  name: string;
  write: (name: string) => void;
}) {
  const [typed, setTyped] = useState<TypedName | null>(null);
  const theirs = namedMeanwhile(typed, part.name);
  const text = typed?.text ?? part.name;
  function settle() {
    setTyped(null);
    if (text.trim() !== part.name) write(text);
  }
  return (
    <div className={styles.name}>
      <input
        className={controls.input}
        aria-label={`Name of ${name}`}
        value={text}
        placeholder={name}
        maxLength={LONGEST_NAME}
        autoComplete="off"
        onChange={(event) => setTyped(typedOn(typed, event.target.value, part.name))}
        onBlur={() => {
          if (theirs === null) settle();
        }}
        onKeyDown={(event) => {
          if (event.key === "Enter") {
            // Leaving the field writes it, unless it stands against another's.
            if (theirs !== null) settle();
            event.currentTarget.blur();
          }
          if (event.key !== "Escape" || typed === null) return;
          // The sheet stays open.
          event.preventDefault();
          setTyped(null);
        }}
      />
      <p className={controls.note} role="status">
        {theirs === null ? null : (
          <>
            {theirs === "" ? "Its name was taken away meanwhile." : `It was called “${theirs}” meanwhile.`}{" "}
            <button type="button" className={controls.link} onClick={settle}>
              Call it “{text.trim() || name}”
            </button>{" "}
            <button type="button" className={controls.link} onClick={() => setTyped(null)}>
              Leave it so
            </button>
          </>
        )}
      </p>
    </div>
  );
}
