/** What was opened, to be closed in the opposite order. */
export class Closers {
  private readonly opened: { what: string; close: () => Promise<unknown> }[] = [];

  add(what: string, close: () => Promise<unknown>): void {
    this.opened.push({ what, close });
  }

  /** Closes everything; what fails is told to `onFault` and does not keep the rest from closing. */
  async close(onFault: (what: string, fault: unknown) => void): Promise<void> {
    for (let last = this.opened.pop(); last; last = this.opened.pop()) {
      const { what, close } = last;
      await close().catch((fault: unknown) => onFault(what, fault));
    }
  }
}
