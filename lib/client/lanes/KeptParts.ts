import { type KeepingStore, KeptState } from "../watched/KeptState";

/** How one person has the parts of a song on the page. */
export interface PartsShown {
  /** The part that is in hand; null for the first. */
  atHand: string | null;
  /** Ids of parts but the first that are folded away; the first folds with the other lanes, on every song. */
  folded: readonly string[];
  /** Ids of parts that sound beside the one in hand. */
  sounding: readonly string[];
  /** How loud parts are, 0 to 1, by id; 1 where nothing is said. */
  levels: Readonly<Record<string, number>>;
  /** Whether the one in hand is heard alone for now, whatever sounds beside it otherwise. */
  isAlone: boolean;
}

const AT_FIRST: PartsShown = { atHand: null, folded: [], sounding: [], levels: {}, isAlone: false };

/** Which part of a song a person has in hand, which are folded away and which are heard, kept in this browser. */
export class KeptParts extends KeptState<PartsShown> {
  constructor(whose: { userId: string; songId: string }, store: KeepingStore) {
    super(store, `liftbook.parts.${whose.userId}.${whose.songId}`, AT_FIRST, (kept) => ({
      atHand: typeof kept.atHand === "string" ? kept.atHand : AT_FIRST.atHand,
      folded: idsOf(kept.folded),
      sounding: idsOf(kept.sounding),
      levels: levelsOf(kept.levels),
      isAlone: kept.isAlone === true,
    }));
  }

  readonly take = (id: string): void => {
    if (this.now().atHand !== id) this.keep({ atHand: id });
  };

  readonly toggle = (id: string): void => {
    this.keep({ folded: switched(this.now().folded, id) });
  };

  /** Opens a part where it is folded. */
  readonly open = (id: string): void => {
    if (this.now().folded.includes(id)) this.toggle(id);
  };

  /** Has a part heard beside the one in hand, or not any more; whoever asks for one does not want the other alone. */
  readonly switchSound = (id: string): void => {
    const { sounding, isAlone } = this.now();
    const next = isAlone && sounding.includes(id) ? sounding : switched(sounding, id);
    this.keep({ sounding: next, isAlone: false });
  };

  /** Has these parts heard, and no others. */
  readonly sound = (ids: readonly string[]): void => {
    this.keep({ sounding: ids, isAlone: false });
  };

  readonly hearAlone = (isAlone: boolean): void => {
    this.keep({ isAlone });
  };

  /** @param level 0 to 1 */
  readonly setLevel = (id: string, level: number): void => {
    const { [id]: _, ...others } = this.now().levels;
    this.keep({ levels: level === 1 ? others : { ...others, [id]: level } });
  };
}

/** Which of the other parts are heard beside the one in hand just now. */
export function heardBeside<P extends { id: string }>(
  parts: readonly P[],
  atHandId: string,
  { sounding, isAlone }: Pick<PartsShown, "sounding" | "isAlone">,
): readonly P[] {
  return isAlone ? [] : parts.filter(({ id }) => id !== atHandId && sounding.includes(id));
}

function switched(ids: readonly string[], id: string): readonly string[] {
  return ids.includes(id) ? ids.filter((each) => each !== id) : [...ids, id];
}

function idsOf(value: unknown): readonly string[] {
  return Array.isArray(value) ? value.filter((id) => typeof id === "string") : [];
}

function levelsOf(value: unknown): Readonly<Record<string, number>> {
  if (typeof value !== "object" || value === null) return {};
  const isLevel = (entry: [string, unknown]): entry is [string, number] =>
    typeof entry[1] === "number" && entry[1] >= 0 && entry[1] <= 1;
  return Object.fromEntries(Object.entries(value).filter(isLevel));
}
