import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents, Hertz } from "@/lib/units/quantities";
import type { EarCopy } from "../../record/EarCopy";
import type { RecordStretch } from "../../record/RecordStretch";
import { wordsOf } from "../../requests/request";
import { Watched } from "../../watched/Watched";
import type { EarWorker } from "./EarWorker";
import { framesFor, toldPassage } from "./passageFrames";
import type { PassageNotes } from "./passageMessages";
import type { PassageStep } from "./passageWords";

export interface PassageState {
  /** The passage that is being heard, and how far that is; null while none is. */
  underWay: { passage: HeardStretch; step: PassageStep } | null;
  /** Why the last one was not heard, in words; null where it was, or was cancelled. */
  fault: string | null;
}

/** Hears passages of one record in this browser, one at a time; tells those who watch how far it is. */
export class PassageHearer extends Watched<PassageState> {
  private stop: AbortController | null = null;

  constructor(
    private readonly copy: Pick<EarCopy, "read" | "peek">,
    private readonly ear: Pick<EarWorker, "warm" | "hear" | "close">,
  ) {
    super({ underWay: null, fault: null });
  }

  /** Makes ready what hearing takes, before it is wanted. */
  warm(): void {
    this.ear.warm();
    void this.copy.peek();
  }

  /**
   * Hears a passage.
   * @param tuningCents of the record; null where it is not known
   * @returns null where it was not heard: a fault, cancelled, or another is being heard
   */
  async hear(wanted: HeardStretch, tuningCents: Cents | null): Promise<(HeardStretch & PassageNotes) | null> {
    if (this.stop) return null;
    const stop = new AbortController();
    this.stop = stop;
    const { signal } = stop;
    const passage = toldPassage(wanted);
    const at = (name: PassageStep["name"], fraction = 0) => {
      if (!signal.aborted) this.tell({ underWay: { passage, step: { name, fraction } }, fault: null });
    };
    let fault: string | null = null;
    try {
      at("fetch");
      const stretch = await this.copy.read(
        ({ sampleRateHz }: { sampleRateHz: Hertz }) => framesFor(passage, sampleRateHz),
        { signal, onMaking: (fraction) => at("copy", fraction) },
      );
      at("hear");
      const heard = await this.ear.hear(
        { stretch, passage, tuningCents },
        { signal, onProgress: (fraction) => at("hear", fraction) },
      );
      return { ...passage, ...heard };
    } catch (thrown) {
      if (!signal.aborted) fault = wordsOf(thrown);
      return null;
    } finally {
      this.stop = null;
      this.tell({ underWay: null, fault });
    }
  }

  /**
   * Hears a short sound that is none of the record's, such as a microphone's; nothing is told of it.
   * @returns null where it cannot be heard, or a passage is being heard
   */
  async hearSound(stretch: RecordStretch, passage: HeardStretch): Promise<PassageNotes | null> {
    if (this.stop) return null;
    try {
      return await this.ear.hear({ stretch, passage, tuningCents: 0 });
    } catch {
      return null;
    }
  }

  /** Ends the hearing that is under way. @returns whether there was one */
  cancel(): boolean {
    if (!this.stop) return false;
    this.stop.abort();
    return true;
  }

  close(): void {
    this.cancel();
    this.leaveWatchers();
    this.ear.close();
  }
}
