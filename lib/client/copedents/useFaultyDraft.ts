import { useEffect, useRef } from "react";
import type { Chart } from "@/lib/instrument/chart/Chart";
import type { ChartDraft } from "./ChartDraft";
import { keptText, readKeptDraft } from "./keptDraft";

/**
 * Keeps a draft that cannot be read, and so not be saved, for as long as this window is open: whoever goes to another
 * page and comes back finds it as it was typed. It is passed over where the chart was changed meanwhile.
 * @param id of the copedent; null where nothing is edited
 * @param chart as last read without a fault
 */
export function useFaultyDraft({
  id,
  draft,
  isFaulty,
  chart,
  restore,
}: {
  id: string | null;
  draft: ChartDraft;
  isFaulty: boolean;
  chart: Chart;
  restore: (draft: ChartDraft) => void;
}): void {
  const isOpened = useRef(false);
  const chartText = JSON.stringify(chart);
  useEffect(() => {
    if (id === null) return;
    const key = `liftbook copedent ${id}`;
    const isFirst = !isOpened.current;
    isOpened.current = true;
    try {
      if (isFaulty) sessionStorage.setItem(key, keptText(chartText, draft));
      else if (isFirst) {
        const kept = readKeptDraft(sessionStorage.getItem(key), chartText);
        if (kept) restore(kept);
      } else sessionStorage.removeItem(key);
    } catch {
      // A browser that keeps nothing: what is typed stands until the page is left.
    }
  }, [id, isFaulty, chartText, draft, restore]);
}
