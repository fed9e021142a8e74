import { Watched } from "../watched/Watched";

/** The lanes that can be folded away. */
const FOLDABLE = ["sections", "record", "changes", "bass", "heard", "part"] as const;
export type FoldableLane = (typeof FOLDABLE)[number];

/** What the ruler counts in. */
const RULERS = ["bars", "seconds", "both"] as const;
export type RulerKind = (typeof RULERS)[number];

export interface LanesShown {
  folded: readonly FoldableLane[];
  ruler: RulerKind;
}

const AT_FIRST: LanesShown = { folded: [], ruler: "bars" };

/** Where the browser keeps it: what people fold away on one machine is theirs alone. */
function keyOf(userId: string): string {
  return `liftbook.lanes.${userId}`;
}

/** Which lanes a person has folded and what their ruler counts in, on every song, kept in this browser. */
export class KeptLanes extends Watched<LanesShown> {
  constructor(
    private readonly userId: string,
    private readonly store: Pick<Storage, "getItem" | "setItem">,
  ) {
    super(readKept(store, keyOf(userId)));
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

  private keep(fields: Partial<LanesShown>): void {
    this.tell(fields);
    try {
      this.store.setItem(keyOf(this.userId), JSON.stringify(this.now()));
    } catch {
      // A browser that keeps nothing still shows the choice until the page closes.
    }
  }
}

/** What was kept; whatever cannot be read of it is as at first. */
function readKept(store: Pick<Storage, "getItem">, key: string): LanesShown {
  try {
    const kept: unknown = JSON.parse(store.getItem(key) ?? "null");
    if (typeof kept !== "object" || kept === null) return AT_FIRST;
    const { folded, ruler } = kept as { folded?: unknown; ruler?: unknown };
    return {
      folded: Array.isArray(folded) ? FOLDABLE.filter((lane) => folded.includes(lane)) : AT_FIRST.folded,
      ruler: RULERS.find((kind) => kind === ruler) ?? AT_FIRST.ruler,
    };
  } catch {
    return AT_FIRST;
  }
}
