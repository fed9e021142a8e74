import type { FitAnswer } from "@/lib/fit/FitAnswer";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { EarCopy } from "../record/EarCopy";
import type { FitOutcome, FitWorker } from "./FitWorker";
import type { AskedFit } from "./fitMessages";
import { framesAbout } from "./framesAbout";

/** Passages that lie together are fetched together, up to so much of the record. */
const LONGEST_READ_SEC: Seconds = 12;
/** Answers kept, so that going back and forth asks nothing twice. */
const MOST_KEPT = 200;

export interface CheckOptions {
  /** Ends it at once; the promise then rejects with the signal's reason. */
  signal: AbortSignal;
  onOutcome: (at: number, outcome: FitOutcome) => void;
  /** Told, 0 to 1, how far the server is with a copy of the record that was not there yet. */
  onMaking: (fraction: number) => void;
}

/** Holds guesses against one record: fetches what it takes of the ear copy and has a worker look at it. */
export class RecordFitter {
  private readonly kept = new Map<string, FitAnswer>();

  constructor(
    private readonly copy: Pick<EarCopy, "read" | "peek">,
    private readonly worker: Pick<FitWorker, "warm" | "fit" | "close">,
  ) {}

  /** Makes ready what is wanted later. */
  warm(tuningCents: Cents): void {
    this.worker.warm(tuningCents);
    void this.copy.peek();
  }

  /**
   * Holds one guess against the record.
   * @param tuningCents of the record; null where it is not known
   * @throws Error in words for people; the signal's reason where that ended it
   */
  async ask(asked: AskedFit, tuningCents: Cents | null, signal: AbortSignal): Promise<FitAnswer> {
    const key = JSON.stringify([asked, tuningCents]);
    const known = this.kept.get(key);
    if (known) return known;
    let outcome: FitOutcome | null = null;
    const stretch = await this.read(asked.passage, { signal });
    await this.worker.fit(
      stretch,
      tuningCents,
      [asked],
      (_, told) => {
        outcome = told;
      },
      signal,
    );
    const told = outcome as FitOutcome | null;
    if (!told || "refused" in told) throw new Error(told?.refused ?? "Nothing was told of this passage.");
    this.kept.set(key, told.answer);
    if (this.kept.size > MOST_KEPT) this.kept.delete(this.kept.keys().next().value!);
    return told.answer;
  }

  /**
   * Holds many guesses against the record, in order of time.
   * @throws Error in words for people; the signal's reason where that ended it
   */
  async check(
    asked: readonly AskedFit[],
    tuningCents: Cents | null,
    { signal, onOutcome, onMaking }: CheckOptions,
  ): Promise<void> {
    for (const group of together(asked)) {
      const passages = group.map((at) => asked[at]!.passage);
      const span = {
        startSec: Math.min(...passages.map(({ startSec }) => startSec)),
        endSec: Math.max(...passages.map(({ endSec }) => endSec)),
      };
      const stretch = await this.read(span, { signal, onMaking });
      await this.worker.fit(
        stretch,
        tuningCents,
        group.map((at) => asked[at]!),
        (at, outcome) => onOutcome(group[at]!, outcome),
        signal,
      );
    }
  }

  close(): void {
    this.kept.clear();
    this.worker.close();
  }

  private read(
    passage: HeardStretch,
    options: { signal: AbortSignal; onMaking?: (fraction: number) => void },
  ) {
    return this.copy.read(({ sampleRateHz }) => framesAbout(passage, sampleRateHz), options);
  }
}

/** Places in the list of those that are fetched together. */
function together(asked: readonly AskedFit[]): number[][] {
  const inTime = asked
    .map((_, at) => at)
    .sort((a, b) => asked[a]!.passage.startSec - asked[b]!.passage.startSec);
  const groups: number[][] = [];
  let fromSec = Number.NEGATIVE_INFINITY;
  for (const at of inTime) {
    const { startSec, endSec } = asked[at]!.passage;
    if (groups.length === 0 || endSec - fromSec > LONGEST_READ_SEC) {
      groups.push([at]);
      fromSec = startSec;
    } else groups.at(-1)!.push(at);
  }
  return groups;
}
