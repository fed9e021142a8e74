"use client";

import controls from "@/app/parts/controls.module.css";
import type { MicrophoneState } from "@/lib/client/entry/Microphone";
import type { KeyboardsState } from "@/lib/client/entry/MidiKeyboards";
import { useKeyboardsState, useMicrophoneState } from "@/lib/client/entry/useNoteEntry";
import { printed } from "@/lib/client/format/format";
import type { Key } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import { useDesk } from "./DeskContext";
import styles from "./playIn.module.css";
import { togglePlayIn } from "./playInActs";

/** Whether notes are played in, by what, and how that goes. @param homeKey names heard notes */
export function PlayIn({ homeKey }: { homeKey: Key }) {
  const desk = useDesk();
  const keyboards = useKeyboardsState(desk.entry);
  const microphone = useMicrophoneState(desk.entry);
  const fault = keyboards.fault ?? microphone.fault;
  return (
    <div className={styles.playIn}>
      <fieldset className={styles.row} aria-label="Play in">
        <span aria-hidden="true">Play in</span>
        <div className={controls.toggles}>
          <button
            type="button"
            className={controls.toggle}
            aria-pressed={keyboards.state !== "off"}
            onClick={() => togglePlayIn(desk, "keyboards")}
          >
            keyboard
          </button>
          <button
            type="button"
            className={controls.toggle}
            aria-pressed={microphone.state !== "off"}
            onClick={() => togglePlayIn(desk, "microphone")}
          >
            microphone
          </button>
        </div>
      </fieldset>
      <p className={`${controls.small} ${fault ? styles.fault : ""}`} role="status">
        {fault ?? keyboardWords(keyboards) ?? microphoneWords(microphone, homeKey)}
      </p>
    </div>
  );
}

const ASKING = "The browser asks whether this page may hear it.";

function keyboardWords({ state, names }: KeyboardsState): string | null {
  if (state === "off") return null;
  if (state === "asking") return ASKING;
  return names.length === 0
    ? "No keyboard is connected. It is heard as soon as it is plugged in."
    : `Hearing ${names.join(", ")}. Hold keys together.`;
}

function microphoneWords({ state, hears, note, together }: MicrophoneState, key: Key): string {
  const named = (midi: Midi) => printed(midiToName(midi, key));
  if (state === "off") return "";
  if (state === "asking") return ASKING;
  const heard = note
    ? `${named(note.midi)}, ${offWords(note.offCents)}.`
    : together.length > 0
      ? `${[...together].reverse().map(named).join(" over ")}.`
      : hears === "unclear"
        ? "Not clear yet: let it ring, and keep the record still."
        : "Pick one to three notes and let them ring.";
  return `${heard} The sound stays in this browser and is not kept.`;
}

function offWords(cents: number): string {
  const whole = Math.round(Math.abs(cents) / 5) * 5;
  if (whole === 0) return "in tune";
  return `${whole} ¢ ${cents < 0 ? "low" : "high"}`;
}
