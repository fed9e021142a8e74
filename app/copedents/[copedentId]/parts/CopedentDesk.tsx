"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import { FaultWords } from "@/app/parts/FaultWords";
import type { ChartDraft } from "@/lib/client/copedents/ChartDraft";
import { readDraft } from "@/lib/client/copedents/readDraft";
import { useDraft } from "@/lib/client/copedents/useDraft";
import { useKeeping } from "@/lib/client/copedents/useKeeping";
import { useKeptDraft } from "@/lib/client/copedents/useKeptDraft";
import { useAskBeforeLeaving } from "@/lib/client/page/useAskBeforeLeaving";
import type { CopedentPage } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import type { StageId } from "@/lib/instrument/stages";
import { allStages } from "@/lib/instrument/stages";
import { ChangeInHand } from "./ChangeInHand";
import { ChartTable } from "./ChartTable";
import { CombinationTable } from "./CombinationTable";
import { CopedentContext, type InHand } from "./CopedentContext";
import { CopedentHead } from "./CopedentHead";
import styles from "./desk.module.css";
import { Exceptions } from "./Exceptions";
import { InstrumentFields } from "./InstrumentFields";
import { NeckCheck } from "./NeckCheck";
import { ShareInBooks } from "./ShareInBooks";
import { StringInHand } from "./StringInHand";
import { useLatest } from "./useLatest";

/** The page of one copedent: the chart, what is in hand of it, and what it gives; edited by its owner alone. */
export function CopedentDesk({ chart: opened, kept }: { chart: Chart; kept: CopedentPage | null }) {
  const mayEdit = kept?.isOwn ?? false;
  const { draft, edit, takeBack, canTakeBack } = useDraft(opened);
  const reading = readDraft(draft, kept?.id);
  const [inHand, takeInHand] = useState<InHand | null>(null);
  const [engaged, engage] = useState<readonly StageId[]>([]);
  const [fret, setFret] = useState(0);
  // While something typed cannot be read, what the chart gave before stays in view.
  const lastGood = useRef(reading.copedent ?? readChart(opened));
  useEffect(() => {
    if (reading.copedent) lastGood.current = reading.copedent;
  });
  const copedent = reading.copedent ?? lastGood.current;
  const chart = reading.chart ?? writeChart(copedent);
  const isFaulty = reading.chart === null;
  const { standing, heldText } = useKeeping(chart, isFaulty, mayEdit ? kept : null);
  const isUnsaved = standing.is !== "saved";
  const { isKept, apart } = useKeptDraft({
    id: mayEdit && kept ? kept.id : null,
    draft,
    isUnsaved,
    heldText,
    readText: JSON.stringify(chart),
    restore: useCallback((typed: ChartDraft) => edit(() => typed), [edit]),
  });
  useAskBeforeLeaving(isUnsaved && !isKept);
  useLatest(kept, isUnsaved || canTakeBack);
  const stages = allStages(copedent).map(({ id }) => id);
  const desk = {
    draft,
    edit,
    mayEdit,
    faults: reading.faults,
    copedent,
    inHand,
    takeInHand,
    engaged: engaged.filter((id) => stages.includes(id)),
    engage,
    fret: Math.min(fret, copedent.fretCount),
    setFret,
  };
  const wholeFault = reading.faults.get("chart");

  return (
    <CopedentContext value={desk}>
      <main className={styles.desk}>
        <CopedentHead
          chart={reading.chart}
          kept={kept}
          standing={standing}
          isKept={isKept}
          apart={apart}
          takeBack={canTakeBack ? takeBack : null}
        />
        <div className={styles.columns}>
          <div className={styles.chart}>
            <ChartTable />
            <FaultWords words={wholeFault} />
            {inHand?.kind === "string" ? <StringInHand key={inHand.key} stringKey={inHand.key} /> : null}
            {inHand?.kind === "change" ? <ChangeInHand key={inHand.key} changeKey={inHand.key} /> : null}
            <InstrumentFields />
            <Exceptions />
            {kept?.isOwn ? <ShareInBooks kept={kept} /> : null}
          </div>
          <NeckCheck />
        </div>
        <CombinationTable />
      </main>
    </CopedentContext>
  );
}
