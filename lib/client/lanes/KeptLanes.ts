import { type KeepingStore, KeptState } from "../watched/KeptState";

/** The lanes that can be folded away. */
const FOLDABLE = ["sections", "record", "asked", "changes", "bass", "heard", "part", "takes"] as const;
export type FoldableLane = (typeof FOLDABLE)[number];

/** What the ruler counts in. */
const RULERS = ["bars", "seconds", "both"] as const;
export type RulerKind = (typeof RULERS)[number];

export interface LanesShown {
  folded: readonly FoldableLane[];
  ruler: RulerKind;
}

const AT_FIRST: LanesShown = { folded: [], ruler: "bars" };

/** Which lanes a person has folded and what their ruler counts in, on every song: kept in this browser, for that person alone. */
export class KeptLanes extends KeptState<LanesShown> {
  constructor(userId: string, store: KeepingStore) {
    super(store, `liftbook.lanes.${userId}`, AT_FIRST, ({ folded, ruler }) => ({
      folded: Array.isArray(folded) ? FOLDABLE.filter((lane) => folded.includes(lane)) : AT_FIRST.folded,
      ruler: RULERS.find((kind) => kind === ruler) ?? AT_FIRST.ruler,
    }));
  }

  readonly toggle = (lane: FoldableLane): void => {
    const { folded } = this.now();
    const next = folded.includes(lane) ? folded.filter((each) => each !== lane) : [...folded, lane];
    this.keep({ folded: next });
  };

  /** Opens a lane where it is folded. */
  readonly open = (lane: FoldableLane): void => {
    if (this.now().folded.includes(lane)) this.toggle(lane);
  };

  readonly nextRuler = (): void => {
    const at = RULERS.indexOf(this.now().ruler);
    this.keep({ ruler: RULERS[(at + 1) % RULERS.length] ?? "bars" });
  };
}
