import { useEffect, useState, useSyncExternalStore } from "react";
import type { MicrophoneState } from "./Microphone";
import type { KeyboardsState } from "./MidiKeyboards";
import { NoteEntry } from "./NoteEntry";

/** What notes are played in by, for as long as the page stands. */
export function useNoteEntry(): NoteEntry {
  const [entry] = useState(() => new NoteEntry());
  useEffect(() => entry.close, [entry]);
  return entry;
}

export function useKeyboardsState({ keyboards }: NoteEntry): KeyboardsState {
  return useSyncExternalStore(keyboards.watch, keyboards.now, keyboards.now);
}

export function useMicrophoneState({ microphone }: NoteEntry): MicrophoneState {
  return useSyncExternalStore(microphone.watch, microphone.now, microphone.now);
}
