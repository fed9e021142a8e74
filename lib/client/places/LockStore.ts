import { type HeldLocks, NOTHING_HELD } from "./HeldLocks";

/** The locks of one page's bench, and whether they are being set; tells those who watch. */
export class LockStore {
  private state: { held: HeldLocks; isOpen: boolean } = { held: NOTHING_HELD, isOpen: false };
  private songId: string | null = null;
  private readonly watchers = new Set<() => void>();

  readonly now = (): Readonly<{ held: HeldLocks; isOpen: boolean }> => this.state;

  readonly watch = (watcher: () => void): (() => void) => {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  };

  hold(held: HeldLocks): void {
    this.tell({ ...this.state, held });
  }

  open(isOpen: boolean): void {
    this.tell({ ...this.state, isOpen });
  }

  /** Begins on a song: what was held on another is let off. */
  begin(songId: string): void {
    if (this.songId !== null && this.songId !== songId) this.tell({ held: NOTHING_HELD, isOpen: false });
    this.songId = songId;
  }

  private tell(state: { held: HeldLocks; isOpen: boolean }): void {
    this.state = state;
    for (const watcher of [...this.watchers]) watcher();
  }
}
