import { useEffect, useState } from "react";
import type { HearingStatus } from "@/lib/contracts/books";
import { SYNC_PATH } from "@/lib/contracts/sync";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { watchSong } from "@/lib/document/read/watchSong";
import { UnsentSongs } from "../kept/UnsentSongs";
import { browserStore } from "../page/browserStore";
import { type ConnectionStatus, openSong, type SongConnection } from "../sync/songProvider";
import { type Other, readOthers } from "./presence";
import { SongActs } from "./SongActs";

/** The shared song as this page has it. */
export interface OpenedSong {
  connection: SongConnection;
  acts: SongActs;
  song: SongSnapshot;
  status: ConnectionStatus;
  saved: boolean;
  loaded: boolean;
  hearing: HearingStatus | null;
  others: readonly Other[];
}

/**
 * Opens the shared song for as long as the page shows it; null until it is there.
 * @param onWord told why an act was refused, null when one went through; must keep its identity
 */
export function useSong(
  who: { songId: string; userId: string; name: string; mayWrite: boolean; isStudent: boolean },
  onWord: (message: string | null) => void,
): OpenedSong | null {
  const [opened, setOpened] = useState<OpenedSong | null>(null);
  const { songId, userId, name, mayWrite, isStudent } = who;

  useEffect(() => {
    const { protocol, host } = window.location;
    const serverUrl = `${protocol === "https:" ? "wss" : "ws"}://${host}${SYNC_PATH}`;
    const connection = openSong({ songId, userId, serverUrl });
    const acts = new SongActs(connection.doc, { id: userId, isStudent }, mayWrite, onWord);
    const { awareness } = connection;
    awareness.setLocalState({ user: { id: userId, name }, cursor: null, playing: false });

    const line = () => {
      const { status, saved, loaded, hearing } = connection;
      return { status, saved, loaded, hearing };
    };
    const stopSong = watchSong(connection.doc, (song) =>
      setOpened((before) => ({
        ...(before ?? { connection, acts, others: readOthers(awareness, userId), ...line() }),
        connection,
        acts,
        song,
      })),
    );
    const unsent = new UnsentSongs(userId, browserStore);
    const markUnsent = () => mayWrite && unsent.mark(songId, !connection.saved);
    markUnsent();
    let wasSaved = connection.saved;
    const stopLine = connection.subscribe(() => {
      if (connection.saved !== wasSaved) markUnsent();
      wasSaved = connection.saved;
      setOpened((before) => before && { ...before, ...line() });
    });
    const onOthers = () =>
      setOpened((before) => before && { ...before, others: readOthers(awareness, userId) });
    awareness.on("change", onOthers);
    return () => {
      stopSong();
      stopLine();
      awareness.off("change", onOthers);
      acts.close();
      connection.close();
      setOpened(null);
    };
  }, [songId, userId, name, mayWrite, isStudent, onWord]);

  return opened;
}
