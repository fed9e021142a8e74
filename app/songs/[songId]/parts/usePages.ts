import { useEffect, useState } from "react";
import { PAGE_ROWS, pageOf } from "@/lib/client/song/notePages";

/** A page of a long list, and the way to another. */
export interface Pages<T> extends ReturnType<typeof pageOf<T>> {
  /** Turns to a page; past either end to the last or first. */
  turnTo: (page: number) => void;
}

/**
 * A long list page by page; the page goes along with the one in hand.
 * @param inHandAt where that stands in the list; -1 where it holds none
 * @param atFirst the page that is shown before anything was turned
 */
export function usePages<T>(
  list: readonly T[],
  inHandAt: number,
  { size = PAGE_ROWS, atFirst = () => 0 }: { size?: number; atFirst?: () => number } = {},
): Pages<T> {
  const [wanted, turnTo] = useState(atFirst);
  useEffect(() => {
    if (inHandAt >= 0) turnTo(Math.floor(inHandAt / size));
  }, [inHandAt, size]);
  return { ...pageOf(list, wanted, size), turnTo };
}
