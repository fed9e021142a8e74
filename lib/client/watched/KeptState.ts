import { Watched } from "./Watched";

/** Where it is kept: the browser's own store, or as much of one as this asks of it. Either may refuse, and throws then. */
export type KeepingStore = Pick<Storage, "getItem" | "setItem">;

/** A state that this browser keeps under a key, whole, and has again when it is made anew. */
export class KeptState<State extends object> extends Watched<State> {
  private isRefused = false;

  /**
   * @param atFirst where nothing is kept, or nothing that can be read
   * @param read makes a state of what was kept, leaving out what cannot be read of it
   */
  constructor(
    private readonly store: KeepingStore,
    private readonly key: string,
    atFirst: State,
    private readonly read: (kept: Readonly<Record<string, unknown>>) => State,
  ) {
    super(readKept(store, key, atFirst, read));
  }

  protected keep(fields: Partial<State>): void {
    this.tell(fields);
    try {
      this.store.setItem(this.key, JSON.stringify(this.now()));
      this.isRefused = false;
    } catch {
      // A browser that keeps nothing still shows the choice until the page closes.
      this.isRefused = true;
    }
  }

  /** What is kept by now, by other pages of this browser too; this page's own where that could not be kept. */
  protected keptByNow(): State {
    return this.isRefused ? this.now() : readKept(this.store, this.key, this.now(), this.read);
  }
}

function readKept<State>(
  store: KeepingStore,
  key: string,
  atFirst: State,
  read: (kept: Readonly<Record<string, unknown>>) => State,
): State {
  try {
    const kept: unknown = JSON.parse(store.getItem(key) ?? "null");
    return typeof kept === "object" && kept !== null ? read(kept as Record<string, unknown>) : atFirst;
  } catch {
    return atFirst;
  }
}
