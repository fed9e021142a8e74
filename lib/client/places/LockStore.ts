import { Watched } from "../watched/Watched";
import { type HeldLocks, NOTHING_HELD, withoutOwn } from "./HeldLocks";

export interface LockState {
  held: HeldLocks;
  /** Whether they are being set. */
  isOpen: boolean;
}

export const NOTHING_LOCKED: LockState = { held: NOTHING_HELD, isOpen: false };

/** The locks of one page's bench. */
export class LockStore extends Watched<LockState> {
  private songId: string | null = null;
  private about: string | null = null;

  constructor() {
    super(NOTHING_LOCKED);
  }

  hold(held: HeldLocks): void {
    this.tell({ held });
  }

  open(isOpen: boolean): void {
    this.tell({ isOpen });
  }

  /** Begins on a song: what was held on another is let off. */
  begin(songId: string): void {
    if (this.songId !== null && this.songId !== songId) this.tell(NOTHING_LOCKED);
    this.songId = songId;
  }

  /**
   * Turns to notes: what was held for other notes alone is let off.
   * @param about the same for the same notes; null where single notes are no longer placed
   */
  turnTo(about: string | null): void {
    if (this.about !== about) this.hold(withoutOwn(this.now().held));
    this.about = about;
  }
}
