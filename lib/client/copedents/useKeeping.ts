import { useEffect, useRef, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { CopedentEdit, CopedentRow } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { RequestError, request, wordsOf } from "../requests/request";

/** How a chart that is edited stands on the server. */
export type Standing =
  | { is: "saved" }
  /** On its way, or about to be. */
  | { is: "saving" }
  /** What is typed cannot be read yet; the last good chart is saved. */
  | { is: "faulty" }
  /** Tried again after a while and with the next edit, unless it was changed elsewhere. */
  | { is: "refused"; words: string; wasChangedElsewhere: boolean };

export interface Keeping {
  standing: Standing;
  /** The chart that the server holds, as JSON; empty where nothing may be saved. */
  heldText: string;
}

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
 * Saves a chart as it is edited, one request after the other. What is typed last is still sent where the page goes to
 * another of ours.
 * @param chart as last read without a fault
 * @param isFaulty whether what is typed since cannot be read
 * @param kept what the server held, with its revision, when the page was opened; null where nothing may be saved
 */
export function useKeeping(
  chart: Chart,
  isFaulty: boolean,
  kept: Pick<CopedentRow, "id" | "chart" | "revision"> | null,
): Keeping {
  const [savedText, setSavedText] = useState(() => (kept ? textOf(writeChart(readChart(kept.chart))) : ""));
  const [sendingCount, setSendingCount] = useState(0);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const revision = useRef(kept?.revision ?? 0);
  const last = useRef<Promise<void>>(Promise.resolve());
  const id = kept?.id ?? null;
  const text = textOf(chart);
  const isSending = sendingCount > 0;
  const standing = id === null ? SAVED : standingOf({ text, isFaulty, savedText, isSending, refusal });

  const send = useRef((copedentId: string, sent: string) => {
    setSendingCount((count) => count + 1);
    last.current = last.current.then(async () => {
      try {
        const edit: CopedentEdit = { revision: revision.current, chart: JSON.parse(sent) as Chart };
        const row = await request<CopedentRow>("PATCH", api.copedent(copedentId), edit);
        revision.current = row.revision;
        setSavedText(sent);
        setRefusal(null);
      } catch (fault) {
        const wasChangedElsewhere = fault instanceof RequestError && fault.code === "changed-elsewhere";
        setRefusal({ text: sent, words: wordsOf(fault), wasChangedElsewhere });
      } finally {
        setSendingCount((count) => count - 1);
      }
    });
  });

  const isToSend = standing.is === "saving" && !isSending;
  const waiting = useRef<{ id: string; text: string } | null>(null);
  useEffect(() => {
    waiting.current = id !== null && standing.is === "saving" ? { id, text } : null;
    if (!isToSend || id === null) return;
    const timer = setTimeout(() => send.current(id, text), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [isToSend, standing.is, id, text]);
  useEffect(
    () => () => {
      if (waiting.current) send.current(waiting.current.id, waiting.current.text);
    },
    [],
  );

  useEffect(() => {
    if (!refusal || refusal.wasChangedElsewhere) return;
    const timer = setTimeout(() => setRefusal(null), TRY_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [refusal]);

  return { standing, heldText: savedText };
}

const SAVED: Standing = { is: "saved" };

function standingOf({
  text,
  isFaulty,
  savedText,
  isSending,
  refusal,
}: {
  text: string;
  isFaulty: boolean;
  savedText: string;
  isSending: boolean;
  refusal: Refusal | null;
}): Standing {
  if (refusal?.wasChangedElsewhere) return { is: "refused", ...refusal };
  if (text === savedText && !isSending) return isFaulty ? { is: "faulty" } : SAVED;
  return refusal?.text === text ? { is: "refused", ...refusal } : { is: "saving" };
}

function textOf(chart: Chart): string {
  return JSON.stringify(chart);
}
