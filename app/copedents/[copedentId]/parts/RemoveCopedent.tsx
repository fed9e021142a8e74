"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";
import type { CopedentPage } from "@/lib/contracts/copedents";

/** Asks before a copedent goes, and says what stays. */
export function RemoveCopedent({ kept, onClose }: { kept: CopedentPage; onClose: () => void }) {
  const router = useRouter();
  const [fault, setFault] = useState<string | null>(null);
  const [isSending, setIsSending] = useState(false);

  async function remove() {
    setFault(null);
    setIsSending(true);
    try {
      await request("DELETE", api.copedent(kept.id));
      router.push(pages.copedents());
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setIsSending(false);
    }
  }

  return (
    <Sheet title="Remove this copedent" size="narrow" onClose={onClose}>
      <div className={sheet.body}>
        <p>
          <strong>{kept.chart.name}</strong> goes from your list, and from the books that it is shared in.
          Parts that were written on it keep their copy of its chart. Nothing brings it back; to keep it, take
          the chart out first.
        </p>
        {fault ? (
          <p className={controls.fault} role="alert">
            {fault}
          </p>
        ) : null}
      </div>
      <div className={sheet.acts}>
        <button type="button" className={controls.warn} disabled={isSending} onClick={remove}>
          Remove it for good
        </button>
        <button type="button" className={controls.button} onClick={onClose}>
          Keep it
        </button>
      </div>
    </Sheet>
  );
}
