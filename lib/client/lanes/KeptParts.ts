import { type KeepingStore, KeptState } from "../watched/KeptState";

/** How one person has the parts of a song on the page. */
export interface PartsShown {
  /** The part that is in hand; null for the first. */
  atHand: string | null;
  /** Ids of parts but the first that are folded away; the first folds with the other lanes, on every song. */
  folded: readonly string[];
}

const AT_FIRST: PartsShown = { atHand: null, folded: [] };

/** Which part of a song a person has in hand and which are folded away, kept in this browser. */
export class KeptParts extends KeptState<PartsShown> {
  constructor(whose: { userId: string; songId: string }, store: KeepingStore) {
    super(store, `liftbook.parts.${whose.userId}.${whose.songId}`, AT_FIRST, ({ atHand, folded }) => ({
      atHand: typeof atHand === "string" ? atHand : AT_FIRST.atHand,
      folded: Array.isArray(folded) ? folded.filter((id) => typeof id === "string") : AT_FIRST.folded,
    }));
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
}
