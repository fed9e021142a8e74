"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";

/** Takes up an invitation and opens the book. */
export function AcceptInvite({ token }: { token: string }) {
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const isReady = useIsReady();

  async function accept() {
    setBusy(true);
    setFault(null);
    try {
      const { bookId } = await request<{ bookId: string }>("POST", api.offer(token));
      window.location.assign(pages.book(bookId));
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setBusy(false);
    }
  }

  return (
    <>
      <button type="button" className={controls.act} onClick={accept} disabled={busy || !isReady}>
        Join the book
      </button>
      <FaultWords words={fault} />
    </>
  );
}
