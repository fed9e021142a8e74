"use client";

import Link from "next/link";
import { useState } from "react";
import { ownName } from "@/app/copedents/parts/ownName";
import { useMakeCopedent } from "@/app/copedents/parts/useMakeCopedent";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { sizeWords } from "@/lib/client/copedents/copedentWords";
import { setFields } from "@/lib/client/copedents/draftEdits";
import type { Keeping } from "@/lib/client/copedents/useKeeping";
import { saveFile } from "@/lib/client/page/saveFile";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { pages } from "@/lib/contracts/api";
import type { CopedentPage } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { useCopedentDesk } from "./CopedentContext";
import styles from "./desk.module.css";
import { Fault } from "./Fault";
import { RemoveCopedent } from "./RemoveCopedent";
import { UsualGuitar } from "./UsualGuitar";

const KEEPING_WORDS = {
  saved: "Saved",
  saving: "Saving",
  faulty: "Not saved: put right what is marked",
} as const;

/** The name of a copedent, whose it is, whether it is saved, and what can be done with it as a whole. */
export function CopedentHead({
  chart,
  kept,
  keeping,
  takeBack,
}: {
  /** Null while what is typed cannot be read. */
  chart: Chart | null;
  /** Null for a preset. */
  kept: CopedentPage | null;
  keeping: Keeping;
  /** Null where there is nothing to take back. */
  takeBack: (() => void) | null;
}) {
  const { draft, edit, mayEdit, copedent, faults } = useCopedentDesk();
  const isReady = useIsReady();
  const { make, isMaking, fault } = useMakeCopedent();
  const [isRemoving, setIsRemoving] = useState(false);
  const from = kept === null ? "preset" : kept.isOwn ? "yours" : `${kept.ownerName}'s`;

  return (
    <header className={styles.head}>
      <p className={controls.note}>
        <Link href={pages.copedents()}>Copedents</Link> / {from}
      </p>
      {mayEdit ? (
        <>
          <h1 className="unseen">{draft.name}</h1>
          <input
            className={styles.name}
            aria-label="Name"
            aria-invalid={faults.has("name")}
            aria-describedby={faults.has("name") ? "fault-name" : undefined}
            value={draft.name}
            maxLength={80}
            disabled={!isReady}
            onChange={(event) => edit(setFields({ name: event.target.value }), "name")}
          />
          <Fault of="name" />
        </>
      ) : (
        <h1>{draft.name}</h1>
      )}
      <p className={controls.note}>
        {sizeWords(copedent)}
        {kept === null ? `; charted after ${copedent.source}` : null}
      </p>
      <div className={styles.acts}>
        {mayEdit ? (
          <>
            <span className={styles.keeping} role="status">
              {keeping.is === "refused" ? null : KEEPING_WORDS[keeping.is]}
            </span>
            <button
              type="button"
              className={controls.button}
              disabled={!takeBack}
              onClick={() => takeBack?.()}
            >
              Take back
            </button>
          </>
        ) : null}
        <button
          type="button"
          className={mayEdit ? controls.button : controls.act}
          disabled={!isReady || isMaking || !chart}
          onClick={() => chart && make({ ...chart, source: "", name: ownName(copedent.name) })}
        >
          {mayEdit ? "Copy it" : "Make mine from it"}
        </button>
        <button
          type="button"
          className={controls.button}
          disabled={!isReady || !chart}
          onClick={() =>
            chart &&
            saveFile({ title: copedent.name, ending: "json", text: `${JSON.stringify(chart, null, 2)}\n` })
          }
        >
          Take out the chart
        </button>
        {kept?.isOwn ? (
          <>
            <UsualGuitar kept={kept} />
            <button
              type="button"
              className={controls.warn}
              disabled={!isReady}
              onClick={() => setIsRemoving(true)}
            >
              Remove
            </button>
          </>
        ) : null}
      </div>
      {keeping.is === "refused" ? (
        <p className={controls.fault} role="alert">
          {keeping.words}
        </p>
      ) : null}
      <FaultWords words={fault} />
      {isRemoving && kept ? <RemoveCopedent kept={kept} onClose={() => setIsRemoving(false)} /> : null}
    </header>
  );
}
