import type { NotesFit } from "@/lib/fit/FitAnswer";
import { type FitVerdict, verdictOf } from "@/lib/fit/fitVerdict";
import type { Cents } from "@/lib/units/quantities";
import { wordsOf } from "../requests/request";
import { Watched } from "../watched/Watched";
import { type AskedEvent, signOf } from "./askedEvents";
import type { RecordFitter } from "./RecordFitter";

/** What a check says of one event of the part. */
export interface CheckMark {
  eventId: string;
  /** Of the event as it was asked for: another sign now means that the event was changed since. */
  sign: string;
  startSec: number;
  /** What it was held against the record as. */
  answer: NotesFit;
  verdict: FitVerdict;
}

export interface CheckState {
  /** How far a check is; `copying` while the server still makes the copy of the record that it takes. */
  underWay: { done: number; of: number; copying: number | null } | null;
  /** Why the last one was not done, in words; null where it was, or was cancelled. */
  fault: string | null;
  /** Of the last check, by event, in order of time. */
  marks: readonly CheckMark[];
  /** Events that could not be held against the record. */
  refusedCount: number;
}

const NONE: CheckState = { underWay: null, fault: null, marks: [], refusedCount: 0 };

/** Checks events of a part against the record, one check at a time; its marks are this page's own. */
export class PassageCheck extends Watched<CheckState> {
  private stop: AbortController | null = null;

  constructor(private readonly fitter: Pick<RecordFitter, "check">) {
    super(NONE);
  }

  /**
   * Checks events; marks of others stay.
   * @returns whether it was done to its end; false too while another is under way
   */
  async run(events: readonly AskedEvent[], tuningCents: Cents | null): Promise<boolean> {
    if (this.stop || events.length === 0) return false;
    const stop = new AbortController();
    this.stop = stop;
    const asked = new Set(events.map(({ eventId }) => eventId));
    const kept = this.now().marks.filter(({ eventId }) => !asked.has(eventId));
    const found: CheckMark[] = [];
    let [done, refusedCount] = [0, 0];
    const tell = (copying: number | null = null) =>
      this.tell({
        underWay: { done, of: events.length, copying },
        fault: null,
        marks: [...kept, ...found].sort((a, b) => a.startSec - b.startSec),
        refusedCount,
      });
    let fault: string | null = null;
    try {
      tell();
      await this.fitter.check(
        events.map(({ asked: one }) => one),
        tuningCents,
        {
          signal: stop.signal,
          onMaking: (fraction) => tell(fraction),
          onOutcome: (at, outcome) => {
            const event = events[at]!;
            done += 1;
            if ("answer" in outcome && outcome.answer.kind === "notes")
              found.push({
                eventId: event.eventId,
                sign: signOf(event),
                startSec: event.asked.passage.startSec,
                answer: outcome.answer,
                verdict: verdictOf(outcome.answer),
              });
            else refusedCount += 1;
            if (!stop.signal.aborted) tell();
          },
        },
      );
      return true;
    } catch (thrown) {
      if (!stop.signal.aborted) fault = wordsOf(thrown);
      return false;
    } finally {
      this.stop = null;
      this.tell({ underWay: null, fault });
    }
  }

  /** Ends the check that is under way; what it found so far stays. @returns whether there was one */
  cancel(): boolean {
    if (!this.stop) return false;
    this.stop.abort();
    return true;
  }

  /** Takes all marks away. */
  clear(): void {
    this.cancel();
    this.tell(NONE);
  }

  close(): void {
    this.cancel();
    this.leaveWatchers();
  }
}
