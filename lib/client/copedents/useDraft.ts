import { useCallback, useState } from "react";
import type { Chart } from "@/lib/instrument/chart/Chart";
import type { ChartDraft } from "./ChartDraft";
import type { ChartField } from "./ChartField";
import type { DraftEdit } from "./draftEdits";
import { openDraft } from "./openDraft";

/** More steps than this are not kept. */
const MOST_STEPS = 200;

interface History {
  now: ChartDraft;
  before: readonly ChartDraft[];
  /** The field that was edited last: what is typed on in it is one step. */
  field: ChartField | null;
}

export interface EditedDraft {
  draft: ChartDraft;
  /** @param field that is being typed in, where it is one */
  edit(edit: DraftEdit, field?: ChartField): void;
  /** Takes back the last edit; nothing where there is none. */
  takeBack(): void;
  canTakeBack: boolean;
}

/** A chart in hand, with the way back. */
export function useDraft(chart: Chart): EditedDraft {
  const [history, setHistory] = useState<History>(() => ({ now: openDraft(chart), before: [], field: null }));
  const edit = useCallback((make: DraftEdit, field: ChartField | null = null) => {
    setHistory(({ now, before, field: last }) => {
      const next = make(now);
      if (next === now) return { now, before, field };
      const isSameStep = field !== null && field === last;
      return { now: next, before: isSameStep ? before : [...before, now].slice(-MOST_STEPS), field };
    });
  }, []);
  const takeBack = useCallback(() => {
    setHistory((history) => {
      const last = history.before.at(-1);
      return last ? { now: last, before: history.before.slice(0, -1), field: null } : history;
    });
  }, []);
  return { draft: history.now, edit, takeBack, canTakeBack: history.before.length > 0 };
}
