"use client";

import { CLOSE } from "@/lib/contracts/sync";
import { useDesk } from "./DeskContext";
import styles from "./header.module.css";

/** Says whether everything written here is committed by the server; "Saved" only when it is. */
export function SavedSign() {
  const { opened, mayWrite } = useDesk();
  const { status, saved, connection } = opened;
  return (
    <p className={styles.saved} role="status" aria-live="polite">
      {words()}
    </p>
  );

  function words(): string {
    if (status === "refused") return refusedWords(connection.refusal);
    if (status === "offline") return mayWrite ? "Offline: kept in this browser" : "Offline";
    if (status === "connecting") return "Connecting";
    if (!mayWrite) return "Read only";
    return saved ? "Saved" : "Saving";
  }
}

function refusedWords(code: number | null): string {
  switch (code) {
    case CLOSE.notSignedIn:
      return "Signed out: kept in this browser. Sign in again.";
    case CLOSE.notFound:
      return "This song was removed, or you are no longer in its book.";
    case CLOSE.leavingBook:
      return "You are no longer in this book.";
    default:
      return "The server refused the connection: kept in this browser. Load the page again.";
  }
}
