import type { Cents, Midi } from "@/lib/units/quantities";
import { Microphone } from "./Microphone";
import { MidiKeyboards } from "./MidiKeyboards";

/** Notes that were played in, ascending. */
export interface PlayedIn {
  midis: readonly Midi[];
  by: "keyboard" | "microphone";
  /** Whether a note was added just now; else one was taken away. */
  isStruck: boolean;
}

/** All ways to play notes into the page; {@link close} ends every one of them. */
export class NoteEntry {
  readonly keyboards = new MidiKeyboards((midis, why) =>
    this.onPlayed?.({ midis, by: "keyboard", isStruck: why === "struck" }),
  );
  readonly microphone = new Microphone(
    ({ midi }) => this.onPlayed?.({ midis: [midi], by: "microphone", isStruck: true }),
    () => this.tuningCents,
  );
  /** What is done with them; null while nobody shows them. */
  onPlayed: ((played: PlayedIn) => void) | null = null;
  /** Of the record. */
  tuningCents: Cents = 0;

  readonly close = (): void => {
    this.keyboards.close();
    this.microphone.close();
  };
}
