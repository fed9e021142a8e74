/**
 * Sends wishes for one thing one after the other: of two at once the earlier might come last, and stand. Of those that wait
 * only the newest is sent.
 */
export class InTurn<Wish> {
  private waiting: { wish: Wish } | null = null;
  private isSending = false;

  /**
   * @param held what stands on the server
   * @param send rejects where it was not taken
   * @param tell told what is to be shown: what is wished for last, or what stands where that was not taken, with why; and
   *   `isSettled` once nothing is under way
   */
  constructor(
    private held: Wish,
    private readonly send: (wish: Wish) => Promise<unknown>,
    private readonly tell: (state: { shown: Wish; isSettled: boolean; fault: unknown }) => void,
  ) {}

  /** Never rejects. */
  async want(wish: Wish): Promise<void> {
    this.waiting = { wish };
    this.tell({ shown: wish, isSettled: false, fault: null });
    if (this.isSending) return;
    this.isSending = true;
    while (this.waiting) {
      const { wish: next }: { wish: Wish } = this.waiting;
      this.waiting = null;
      let fault: unknown = null;
      try {
        await this.send(next);
        this.held = next;
      } catch (thrown) {
        fault = thrown;
      }
      if (!this.waiting) this.tell({ shown: this.held, isSettled: true, fault });
    }
    this.isSending = false;
  }
}
