"use client";

import { offlineWords } from "@/lib/client/kept/keptWords";
import { useKeepSong } from "@/lib/client/kept/useKeepSong";
import { useDesk } from "./DeskContext";
import styles from "./offlineBar.module.css";

/** Keeps the song in this browser while the server is reached; says what is kept while it is not. */
export function OfflineBar() {
  const { page, opened, mayWrite } = useDesk();
  const { status, hearing, connection } = opened;
  const stage = hearing?.state ?? page.hearing?.state ?? "";
  const kept = useKeepSong(page, status === "connected", connection.refusal, stage);
  return (
    <p className={styles.bar} role="status">
      {status === "offline" && kept !== "unknown" ? offlineWords(kept, mayWrite) : ""}
    </p>
  );
}
