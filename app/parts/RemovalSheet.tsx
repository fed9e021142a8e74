"use client";

import { type ReactNode, useState } from "react";
import { request, wordsOf } from "@/lib/client/requests/request";
import controls from "./controls.module.css";
import { FaultWords } from "./FaultWords";
import { Sheet } from "./Sheet";
import sheet from "./Sheet.module.css";

/**
 * Asks before something goes for good.
 * @param address where it is deleted; null where the server has nothing of it
 * @param children says what goes with it, and how to keep it
 */
export function RemovalSheet({
  title,
  address,
  onRemoved,
  onClose,
  children,
}: {
  title: string;
  address: string | null;
  onRemoved: () => void;
  onClose: () => void;
  children: ReactNode;
}) {
  const [fault, setFault] = useState<string | null>(null);
  const [isSending, setIsSending] = useState(false);

  async function remove() {
    setFault(null);
    setIsSending(true);
    try {
      if (address !== null) await request("DELETE", address);
      onRemoved();
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setIsSending(false);
    }
  }

  return (
    <Sheet title={title} size="narrow" onClose={onClose}>
      <div className={sheet.body}>
        <p>{children}</p>
        <FaultWords words={fault} />
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
