"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { CopedentPage, UsualCopedent } from "@/lib/contracts/copedents";
import styles from "./desk.module.css";

/** Whether new songs of one's own start on this guitar. */
export function UsualGuitar({ kept }: { kept: CopedentPage }) {
  const isReady = useIsReady();
  const [isUsual, setIsUsual] = useState(kept.isUsual);
  const [fault, setFault] = useState<string | null>(null);

  async function choose(): Promise<void> {
    setFault(null);
    setIsUsual(!isUsual);
    try {
      const next: UsualCopedent = isUsual ? null : { copedentId: kept.id };
      await request<UsualCopedent>("PUT", api.usualCopedent(), next);
    } catch (thrown) {
      setIsUsual(isUsual);
      setFault(wordsOf(thrown));
    }
  }

  return (
    <>
      <button
        type="button"
        className={`${controls.button} ${styles.usual}`}
        aria-pressed={isUsual}
        title="New songs that you add start on your usual guitar"
        disabled={!isReady}
        onClick={choose}
      >
        My usual guitar
      </button>
      {fault ? (
        <span className={controls.small} role="alert">
          {fault}
        </span>
      ) : null}
    </>
  );
}
