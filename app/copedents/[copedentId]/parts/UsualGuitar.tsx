"use client";

import { useUsualCopedent, usualWords } from "@/app/copedents/parts/useUsualCopedent";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import type { CopedentPage } from "@/lib/contracts/copedents";
import styles from "./desk.module.css";

/** Whether new songs of one's own start on this guitar. */
export function UsualGuitar({ kept }: { kept: CopedentPage }) {
  const isReady = useIsReady();
  const thisOne = { copedentId: kept.id };
  const { shown, isSaved, fault, choose } = useUsualCopedent(kept.isUsual ? thisOne : null);
  const isUsual = shown !== null;
  return (
    <>
      <button
        type="button"
        className={`${controls.button} ${styles.usual}`}
        aria-pressed={isUsual}
        title={usualWords(thisOne)}
        disabled={!isReady}
        onClick={() => choose(isUsual ? null : thisOne)}
      >
        My usual guitar
      </button>
      <span className={`${controls.small} ${styles.usualWords}`} role="status">
        {isSaved ? usualWords(shown) : null}
      </span>
      <FaultWords words={fault} />
    </>
  );
}
