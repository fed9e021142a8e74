"use client";

import Link from "next/link";
import { useState } from "react";
import { ownName } from "@/app/copedents/parts/ownName";
import { useMakeCopedent } from "@/app/copedents/parts/useMakeCopedent";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { sizeWords } from "@/lib/client/copedents/copedentWords";
import { setFields } from "@/lib/client/copedents/draftEdits";
import type { Standing } from "@/lib/client/copedents/useKeeping";
import type { DraftKeeping } from "@/lib/client/copedents/useKeptDraft";
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

const STANDING_WORDS = {
  saved: "Saved",
  saving: "Saving",
  faulty: "Not saved yet: put right what is marked.",
} as const;
const KEPT_WORDS = "What you typed is kept in this browser.";

/** The name of a copedent, whose it is, whether it is saved, and what can be done with it as a whole. */
export function CopedentHead({
  chart,
  kept,
  standing,
  isKept,
  apart,
  takeBack,
}: {
  /** Null while what is typed cannot be read. */
  chart: Chart | null;
  /** Null for a preset. */
  kept: CopedentPage | null;
  standing: Standing;
  /** Whether this browser keeps what is typed. */
  isKept: boolean;
  apart: DraftKeeping["apart"];
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
        <Link className={controls.thumb} href={pages.copedents()}>
          Copedents
        </Link>{" "}
        / {from}
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
              {standing.is === "refused" ? null : STANDING_WORDS[standing.is]}
              {standing.is === "faulty" && isKept ? ` ${KEPT_WORDS}` : null}
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
      {standing.is === "refused" ? (
        <p className={controls.fault} role="alert">
          {standing.words} {isKept ? KEPT_WORDS : null}
        </p>
      ) : null}
      {apart ? (
        <div className={styles.apart} role="alert">
          <p>
            What you typed in this browser last could not be saved, and the guitar was changed elsewhere
            since. You see it as it was changed.
          </p>
          <button type="button" className={controls.button} onClick={apart.takeUp}>
            Put what I typed in its place
          </button>
          <button type="button" className={controls.warn} onClick={apart.letGo}>
            Let it go
          </button>
        </div>
      ) : null}
      <FaultWords words={fault} />
      {isRemoving && kept ? <RemoveCopedent kept={kept} onClose={() => setIsRemoving(false)} /> : null}
    </header>
  );
}
