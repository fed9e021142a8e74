import { type FittedTaps, fitTaps } from "@/lib/notation/taps/fitTaps";
import type { Tap } from "@/lib/notation/taps/Tap";
import { Watched } from "../watched/Watched";

/** What was tapped so far; nothing of it is written until its writer says so. */
export interface TapState {
  /** In the order in which they were tapped; empty where nobody is tapping. */
  taps: readonly Tap[];
  /** The beats they stand for; null while they are too few. */
  fitted: FittedTaps | null;
}

const NONE: TapState = { taps: [], fitted: null };

/** Beats that are being tapped along with the record, before they become the grid. */
export class TapSession extends Watched<TapState> {
  constructor() {
    super(NONE);
  }

  get isOpen(): boolean {
    return this.now().taps.length > 0;
  }

  tap(tap: Tap): void {
    this.keep([...this.now().taps, tap]);
  }

  /** Takes back the last tap. */
  takeBack(): void {
    this.keep(this.now().taps.slice(0, -1));
  }

  /** Forgets all taps. @returns whether there were any */
  drop(): boolean {
    const wasOpen = this.isOpen;
    if (wasOpen) this.tell(NONE);
    return wasOpen;
  }

  private keep(taps: readonly Tap[]): void {
    this.tell({ taps, fitted: fitTaps(taps) });
  }
}
