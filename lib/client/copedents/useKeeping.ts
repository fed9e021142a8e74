import { useEffect, useRef, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { CopedentEdit, CopedentRow } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { RequestError, request, wordsOf } from "../requests/request";

/** How a chart that is edited stands on the server. */
export type Keeping =
  | { is: "saved" }
  /** On its way, or about to be. */
  | { is: "saving" }
  /** What is typed cannot be read yet; the last good chart is saved. */
  | { is: "faulty" }
  /** Tried again after a while and with the next edit, unless it was changed elsewhere. */
  | { is: "refused"; words: string; wasChangedElsewhere: boolean };

/** Typing pauses for so long before anything is sent. */
const PAUSE_MS = 500;
const TRY_AGAIN_MS = 5000;

interface Refusal {
  /** What was refused. */
  text: string;
  words: string;
  wasChangedElsewhere: boolean;
}

/**
 * Saves a chart as it is edited, one request at a time, and warns before the page is left with anything unsaved.
 * @param chart null while what is typed cannot be read
 * @param kept what the server held, with its revision, when the page was opened; null where nothing may be saved
 */
export function useKeeping(
  chart: Chart | null,
  kept: Pick<CopedentRow, "id" | "chart" | "revision"> | null,
): Keeping {
  const [savedText, setSavedText] = useState(() => (kept ? textOf(writeChart(readChart(kept.chart))) : ""));
  const [isSending, setIsSending] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const revision = useRef(kept?.revision ?? 0);
  const id = kept?.id ?? null;
  const text = chart === null ? null : textOf(chart);
  const keeping = id === null ? SAVED : standing({ text, savedText, isSending, refusal });

  const isToSend = keeping.is === "saving" && !isSending;
  useEffect(() => {
    if (!isToSend || id === null || text === null) return;
    const timer = setTimeout(async () => {
      setIsSending(true);
      try {
        const edit: CopedentEdit = { revision: revision.current, chart: JSON.parse(text) as Chart };
        const row = await request<CopedentRow>("PATCH", api.copedent(id), edit);
        revision.current = row.revision;
        setSavedText(text);
        setRefusal(null);
      } catch (fault) {
        const wasChangedElsewhere = fault instanceof RequestError && fault.code === "changed-elsewhere";
        setRefusal({ text, words: wordsOf(fault), wasChangedElsewhere });
      } finally {
        setIsSending(false);
      }
    }, PAUSE_MS);
    return () => clearTimeout(timer);
  }, [isToSend, id, text]);

  useEffect(() => {
    if (!refusal || refusal.wasChangedElsewhere) return;
    const timer = setTimeout(() => setRefusal(null), TRY_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [refusal]);

  const isUnsaved = keeping.is !== "saved";
  useEffect(() => {
    if (!isUnsaved) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, [isUnsaved]);
  return keeping;
}

const SAVED: Keeping = { is: "saved" };

function standing({
  text,
  savedText,
  isSending,
  refusal,
}: {
  text: string | null;
  savedText: string;
  isSending: boolean;
  refusal: Refusal | null;
}): Keeping {
  if (refusal?.wasChangedElsewhere) return { is: "refused", ...refusal };
  if (text === null) return { is: "faulty" };
  if (text === savedText && !isSending) return SAVED;
  return refusal?.text === text ? { is: "refused", ...refusal } : { is: "saving" };
}

function textOf(chart: Chart): string {
  return JSON.stringify(chart);
}
