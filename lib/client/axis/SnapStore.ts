import { Watched } from "../watched/Watched";
import { SNAPS, type Snap } from "./snap";

/** Holds to what times snap, for all lanes of one song page; nothing else keeps such a setting. */
export class SnapStore extends Watched<{ snap: Snap }> {
  constructor() {
    super({ snap: "beat" });
  }

  choose(snap: Snap): void {
    if (snap !== this.now().snap) this.tell({ snap });
  }

  /** Goes round. @returns what holds now */
  next(): Snap {
    const next = SNAPS[(SNAPS.indexOf(this.now().snap) + 1) % SNAPS.length] ?? "beat";
    this.choose(next);
    return next;
  }
}
