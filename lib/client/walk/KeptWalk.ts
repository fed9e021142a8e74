import { Watched } from "../watched/Watched";

/** Where the browser keeps that a person has left the walk. */
function keyOf(userId: string): string {
  return `liftbook.walk.${userId}`;
}

/** At which stop of the walk one is, from 0; null once it was left. */
export interface WalkPlace {
  at: number | null;
}

/** How far a person is on the first walk round the song page. That they left it is kept in this browser for good. */
export class KeptWalk extends Watched<WalkPlace> {
  constructor(
    private readonly userId: string,
    private readonly stepCount: number,
    private readonly store: Pick<Storage, "getItem" | "setItem">,
  ) {
    super({ at: wasLeft(store, keyOf(userId)) ? null : 0 });
  }

  /** To the next step, or back; past the last it is left. */
  readonly step = (direction: -1 | 1): void => {
    const { at } = this.now();
    if (at === null) return;
    const next = Math.max(0, at + direction);
    if (next >= this.stepCount) this.leave();
    else this.tell({ at: next });
  };

  readonly leave = (): void => {
    try {
      this.store.setItem(keyOf(this.userId), "left");
    } catch {
      // A browser that keeps nothing shows it again the next time.
    }
    this.tell({ at: null });
  };

  /** From the start, because a person asked for it. */
  readonly again = (): void => this.tell({ at: 0 });
}

function wasLeft(store: Pick<Storage, "getItem">, key: string): boolean {
  try {
    return store.getItem(key) === "left";
  } catch {
    return false;
  }
}
