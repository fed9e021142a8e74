import { useEffect, useMemo, useState } from "react";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { CopedentRow, CopedentShelf } from "@/lib/contracts/copedents";

/** Copedents that a part can be put on beside the presets: one's own, and those shared in the song's book. */
export function useCopedentShelf(bookId: string): {
  /** Null until it is here. */
  shelf: CopedentShelf | null;
  shared: readonly CopedentRow[] | undefined;
  /** Why it does not come, in words. */
  fault: string | null;
} {
  const [shelf, setShelf] = useState<CopedentShelf | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    const asking = new AbortController();
    request<CopedentShelf>("GET", api.copedents(), undefined, asking.signal).then(setShelf, (thrown) => {
      if (!asking.signal.aborted) setFault(`Your own copedents could not be fetched. ${wordsOf(thrown)}`);
    });
    return () => asking.abort();
  }, []);
  const shared = useMemo(
    () => shelf?.shared.filter(({ sharedIn }) => sharedIn.some((book) => book.bookId === bookId)),
    [shelf, bookId],
  );
  return { shelf, shared, fault };
}
