"use client";

import { type KeyboardEvent, useEffect, useRef } from "react";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { SLOT_WORDS } from "@/lib/client/copedents/slotWords";
import { printed } from "@/lib/client/format/format";
import { changeTyped } from "@/lib/client/song/changeTyped";
import { type Caret, engagedStage, toggleChange } from "@/lib/client/song/partTyping";
import { slotToCode } from "@/lib/instrument/chart/slotCode";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { writeChanges } from "@/lib/notation/tabCell";
import { midiToName } from "@/lib/theory/spelling";
import { useDesk } from "./DeskContext";
import { partActs } from "./partActs";
import styles from "./pedals.module.css";
import { keyAt } from "./selection";

/** Letters typed within this time belong to one name. */
const LETTERS_TOGETHER_MS = 1200;

/** How far each key leads down the list. */
const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

/** Every pedal and lever of the part's guitar for the event at the caret, by keys whatever its name. */
export function PedalsSheet({ caret, onClose }: { caret: Caret; onClose: () => void }) {
  const desk = useDesk();
  const { opened, copedent } = desk;
  const { event, edit } = partActs(desk);
  const { changes } = copedent;
  const engaged = event?.changes ?? [];
  const buttons = useRef<(HTMLButtonElement | null)[]>([]);
  const typed = useRef({ text: "", atMs: Number.NEGATIVE_INFINITY });
  const first = useRef(
    Math.max(
      0,
      changes.findIndex((change) => engagedStage(change, engaged)),
    ),
  );
  useEffect(() => buttons.current[first.current]?.focus(), []);

  function onKeyDown(pressed: KeyboardEvent) {
    if (pressed.ctrlKey || pressed.metaKey || pressed.altKey) return;
    const at = buttons.current.indexOf(document.activeElement as HTMLButtonElement);
    const step = STEPS[pressed.key];
    if (step !== undefined) buttons.current[(at + step + changes.length) % changes.length]?.focus();
    else if (/^[a-z0-9]$/i.test(pressed.key)) type(pressed.key);
    // Held, it would go on and off.
    else if (!(pressed.repeat && (pressed.key === "Enter" || pressed.key === " "))) return;
    pressed.preventDefault();
  }

  /** The name as typed so far; begun anew where nothing is named so. */
  function type(letter: string) {
    const isOn = performance.now() - typed.current.atMs < LETTERS_TOGETHER_MS;
    const longer = (isOn ? typed.current.text : "") + letter;
    const text = changeTyped(changes, longer) ? longer : letter;
    const meant = changeTyped(changes, text);
    typed.current = { text, atMs: performance.now() };
    if (meant) buttons.current[changes.indexOf(meant)]?.focus();
  }

  const notes = event
    ? stoppedPitches(copedent, event).flatMap((midi) =>
        midi === null ? [] : [printed(midiToName(midi, keyAt(opened.song, caret.timeSec)))],
      )
    : [];
  return (
    <Sheet title="Pedals and levers" size="narrow" onClose={onClose}>
      <div className={sheet.body}>
        <p role="status">
          {engaged.length > 0 ? `${writeChanges(engaged, copedent)}: ` : "None: "}
          {notes.join(", ")}
        </p>
        <ol className={styles.list} onKeyDown={onKeyDown}>
          {changes.map((change, index) => {
            const stage = engagedStage(change, engaged);
            return (
              <li key={change.id}>
                <button
                  ref={(button) => {
                    buttons.current[index] = button;
                  }}
                  type="button"
                  className={styles.change}
                  aria-pressed={stage !== undefined}
                  disabled={!event}
                  onClick={() => {
                    const next = toggleChange(copedent, engaged, change.id);
                    if (next) edit({ changes: next });
                  }}
                >
                  <span className={styles.number}>{index + 1}</span>
                  <strong className={styles.id}>{stage ?? change.id}</strong>
                  <span>
                    {change.label === change.id ? null : `${change.label}; `}
                    {SLOT_WORDS[slotToCode(change.slot)]}
                  </span>
                </button>
              </li>
            );
          })}
        </ol>
        <p className={styles.hint}>Type a name or a number, or go by the arrows; Enter puts it on or off.</p>
      </div>
    </Sheet>
  );
}
