/** A state that others watch: a new object whenever anything in it changes, told to all of them. */
export class Watched<State extends object> {
  private readonly watchers = new Set<() => void>();

  constructor(private state: State) {}

  readonly now = (): State => this.state;

  /** Calls back when the state changes; returns the way to stop. */
  readonly watch = (watcher: () => void): (() => void) => {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  };

  protected tell(fields: Partial<State>): void {
    this.state = { ...this.state, ...fields };
    for (const watcher of [...this.watchers]) watcher();
  }

  /** Nobody who watches now is told again. */
  protected leaveWatchers(): void {
    this.watchers.clear();
  }
}
