import { readDocumentStoreName } from "../sync/documentStore";
import { UnsentSongs } from "./UnsentSongs";

/** What of the browser's stores is needed. */
export interface DocumentStores {
  /** Absent in some browsers, which then keep what they have. */
  databases?(): Promise<{ name?: string }[]>;
  deleteDatabase(name: string): unknown;
}

/**
 * Gives up the shared songs that this browser stores, but those of one person, and those that hold what the server may not have: nothing
 * written is lost.
 * @param keptFor whose stay whatever they hold; null for nobody's
 * @returns the names of those that were given up
 */
export async function forgetDocuments(
  keptFor: string | null,
  stores: DocumentStores,
  storage: Pick<Storage, "getItem" | "setItem" | "removeItem">,
): Promise<string[]> {
  const names = ((await stores.databases?.()) ?? []).flatMap(({ name }) => name ?? []);
  const leaving = names.filter((name) => {
    const whose = readDocumentStoreName(name);
    if (!whose || whose.userId === keptFor) return false;
    return !new UnsentSongs(whose.userId, storage).list().includes(whose.songId);
  });
  for (const name of leaving) stores.deleteDatabase(name);
  return leaving;
}
