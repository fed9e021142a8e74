import { type KeepingStore, KeptState } from "../watched/KeptState";

/** Longer than anything that is sent, so that what is too long is kept too until it was shortened. */
const MOST_SIGNS = 20_000;

/** What a person has begun to write on a song and not sent: by what it is written for. */
export interface Drafts {
  texts: Readonly<Record<string, string>>;
}

/** What was begun stays when it is given up, and when the page is left: kept in this browser, for that person alone. */
export class KeptDrafts extends KeptState<Drafts> {
  constructor(whose: { userId: string; songId: string }, store: KeepingStore) {
    super(store, `liftbook.drafts.${whose.userId}.${whose.songId}`, { texts: {} }, ({ texts }) => ({
      texts: readTexts(texts),
    }));
  }

  textOf(name: string): string {
    return this.keptByNow().texts[name] ?? "";
  }

  /** Keeps a text; an empty one is forgotten. What another page on the song has kept meanwhile stays. */
  write(name: string, text: string): void {
    const { [name]: _, ...others } = this.keptByNow().texts;
    this.keep({ texts: text.trim() === "" ? others : { ...others, [name]: text } });
  }
}

function readTexts(value: unknown): Record<string, string> {
  if (typeof value !== "object" || value === null) return {};
  const isText = (entry: [string, unknown]): entry is [string, string] =>
    typeof entry[1] === "string" && entry[1].length <= MOST_SIGNS;
  return Object.fromEntries(Object.entries(value).filter(isText));
}
