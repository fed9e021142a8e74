"use client";

import { useState } from "react";
import { signOut } from "@/lib/client/account/account";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { wordsOf } from "@/lib/client/requests/request";
import controls from "./controls.module.css";

export function SignOut() {
  const [fault, setFault] = useState<string | null>(null);
  const isReady = useIsReady();
  async function leave() {
    try {
      await signOut();
      window.location.assign("/");
    } catch (thrown) {
      setFault(wordsOf(thrown));
    }
  }
  return (
    <>
      <button type="button" className={controls.button} onClick={leave} disabled={!isReady}>
        Sign out
      </button>
      {fault ? (
        <span className={controls.small} role="alert">
          {fault}
        </span>
      ) : null}
    </>
  );
}
