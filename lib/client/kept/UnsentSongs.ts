/** Where the browser keeps which songs of a person hold what the server may not have. */
function keyOf(userId: string): string {
  return `liftbook.unsent.${userId}`;
}

/** The songs in which something was written that the server may not have yet: these are not given up when a person signs out. */
export class UnsentSongs {
  constructor(
    private readonly userId: string,
    private readonly store: Pick<Storage, "getItem" | "setItem" | "removeItem">,
  ) {}

  list(): string[] {
    return (this.store.getItem(keyOf(this.userId)) ?? "").split(" ").filter((id) => id !== "");
  }

  /** @returns whether it could be kept */
  mark(songId: string, isUnsent: boolean): boolean {
    try {
      const others = this.list().filter((id) => id !== songId);
      const next = isUnsent ? [...others, songId] : others;
      if (next.length === 0) this.store.removeItem(keyOf(this.userId));
      else this.store.setItem(keyOf(this.userId), next.join(" "));
      return true;
    } catch {
      return false;
    }
  }
}
