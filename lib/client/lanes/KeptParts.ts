import { Watched } from "../watched/Watched";

/** How one person has the parts of a song on the page. */
export interface PartsShown {
  /** The part that is in hand; null for the first. */
  atHand: string | null;
  /** Ids of parts but the first that are folded away; the first folds with the other lanes, on every song. */
  folded: readonly string[];
}

const AT_FIRST: PartsShown = { atHand: null, folded: [] };

/** Which part of a song a person has in hand and which are folded away, kept in this browser. */
export class KeptParts extends Watched<PartsShown> {
  private readonly key: string;

  constructor(
    whose: { userId: string; songId: string },
    private readonly store: Pick<Storage, "getItem" | "setItem">,
  ) {
    const key = `liftbook.parts.${whose.userId}.${whose.songId}`;
    super(readKept(store, key));
    this.key = key;
  }

  readonly take = (id: string): void => {
    if (this.now().atHand !== id) this.keep({ atHand: id });
  };

  readonly toggle = (id: string): void => {
    const { folded } = this.now();
    this.keep({ folded: folded.includes(id) ? folded.filter((each) => each !== id) : [...folded, id] });
  };

  /** Opens a part where it is folded. */
  readonly open = (id: string): void => {
    if (this.now().folded.includes(id)) this.toggle(id);
  };

  private keep(fields: Partial<PartsShown>): void {
    this.tell(fields);
    try {
      this.store.setItem(this.key, JSON.stringify(this.now()));
    } catch {
      // A browser that keeps nothing still shows the choice until the page closes.
    }
  }
}

/** What was kept; whatever cannot be read of it is as at first. */
function readKept(store: Pick<Storage, "getItem">, key: string): PartsShown {
  try {
    const kept: unknown = JSON.parse(store.getItem(key) ?? "null");
    if (typeof kept !== "object" || kept === null) return AT_FIRST;
    const { atHand, folded } = kept as { atHand?: unknown; folded?: unknown };
    return {
      atHand: typeof atHand === "string" ? atHand : AT_FIRST.atHand,
      folded: Array.isArray(folded) ? folded.filter((id) => typeof id === "string") : AT_FIRST.folded,
    };
  } catch {
    return AT_FIRST;
  }
}
