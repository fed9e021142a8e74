import type { Cents, Midi } from "@/lib/units/quantities";
import type { PassageHearer } from "../hearing/passage/PassageHearer";
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
  readonly microphone = new Microphone({
    onNotes: (midis) => this.onPlayed?.({ midis, by: "microphone", isStruck: true }),
    tuningCents: () => this.tuningCents,
    hearTogether: async (samples, sampleRateHz) => {
      const { asStretch, ringingAtEnd } = await import("./hearTogether");
      if (!this.hearer) return null;
      const { stretch, passage } = asStretch(samples, sampleRateHz);
      const heard = await this.hearer.hearSound(stretch, passage);
      return heard && ringingAtEnd(heard.notes, passage.endSec);
    },
  });
  /** What is done with them; null while nobody shows them. */
  onPlayed: ((played: PlayedIn) => void) | null = null;
  /** Tells notes picked together from one another; null while it is not there. */
  hearer: Pick<PassageHearer, "hearSound"> | null = null;
  /** Of the record. */
  tuningCents: Cents = 0;

  readonly close = (): void => {
    this.keyboards.close();
    this.microphone.close();
  };
}
