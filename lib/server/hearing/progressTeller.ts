import type { HearingStatus } from "@/lib/contracts/books";

const TELL_EVERY_MS = 200;
const STORE_EVERY_MS = 1_000;

/**
 * Thins a run's progress: five a second to the pages, one a second to the row. A new step is told at once.
 */
export class ProgressTeller {
  private toldAt = 0;
  private storedAt = 0;
  private lastStep: string | null = null;
  private storing: Promise<void> = Promise.resolve();

  constructor(
    private readonly tell: (status: HearingStatus) => void,
    /** Must not reject. */
    private readonly store: (step: string, fraction: number) => Promise<void>,
  ) {}

  progress(runId: string, step: string, fraction: number): void {
    const now = Date.now();
    const newStep = step !== this.lastStep;
    this.lastStep = step;
    if (newStep || now - this.toldAt >= TELL_EVERY_MS) {
      this.toldAt = now;
      this.tell({ runId, state: "running", step, fraction, message: null });
    }
    if (newStep || now - this.storedAt >= STORE_EVERY_MS) {
      this.storedAt = now;
      this.storing = this.storing.then(() => this.store(step, fraction));
    }
  }

  /** Resolves when no write of progress is under way any more. */
  settled(): Promise<void> {
    return this.storing;
  }
}
