import { useEffect, useRef, useState } from "react";
import type { SongPage } from "@/lib/contracts/books";
import { CLOSE } from "@/lib/contracts/sync";
import { registerWorker } from "../offline/registerWorker";
import { keptSongsHere, type RecordKept } from "./KeptSongs";

/** How far the open song is kept: `nothing` where this browser keeps no pages, `page` where its recording is missing. */
export type SongKept = "unknown" | "nothing" | "page" | "whole";

/** Listening comes first: what is kept is fetched once the page has been open for so long. */
const AFTER_MS = 3000;

/** Refusals (lib/contracts/sync.ts) that say that the song is not this person's to have any more. */
const GONE: readonly (number | null)[] = [CLOSE.notFound, CLOSE.leavingBook];

/**
 * Keeps the open song in this browser while the server is reached: its page, its peaks, and the recording where there is
 * room. Gives it up where the person is no longer in its book.
 * @param refusal the close code where the server refuses the connection for good, else null
 * @param stage how far the machine is with it; peaks are looked for anew whenever it changes
 */
export function useKeepSong(
  page: SongPage,
  isConnected: boolean,
  refusal: number | null,
  stage: string,
): SongKept {
  const [kept, setKept] = useState<SongKept>("unknown");
  const opened = useRef(page);

  useEffect(() => {
    const songs = keptSongsHere();
    if (!songs) {
      setKept("nothing");
      return;
    }
    let isLeft = false;
    songs.find(opened.current.id).then(
      (song) => !isLeft && song && setKept(song.hasRecord ? "whole" : "page"),
      () => {},
    );
    return () => {
      isLeft = true;
    };
  }, []);

  const isGone = GONE.includes(refusal);
  useEffect(() => {
    if (!isGone) return;
    keptSongsHere()
      ?.forgetSong(opened.current.id)
      .catch((fault: unknown) => console.warn("the song could not be given up", fault));
  }, [isGone]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the stage says that there may be peaks now.
  useEffect(() => {
    const songs = keptSongsHere();
    if (!isConnected || !songs) return;
    const leaving = new AbortController();
    const timer = setTimeout(() => {
      keep().catch((fault: unknown) => {
        // Left, or not reached: what is kept already stays. Anything else is a fault of ours, and the song goes on without.
        if (!leaving.signal.aborted) console.warn("the song could not be kept for offline", fault);
      });
    }, AFTER_MS);
    return () => {
      clearTimeout(timer);
      leaving.abort();
    };

    async function keep(): Promise<void> {
      const { signal } = leaving;
      await registerWorker();
      if (!songs) return;
      if (!(await songs.keepPage(opened.current, Date.now(), signal))) return;
      setKept((before) => (before === "whole" ? before : "page"));
      await songs.keepPeaks(opened.current, signal);
      if (savesData()) return;
      const record: RecordKept = await songs.keepRecord(opened.current, signal);
      if (!signal.aborted) setKept(record === "kept" ? "whole" : "page");
    }
  }, [isConnected, stage]);
  return kept;
}

/** Whether the person asked their browser to fetch no more than it must (Network Information API). */
function savesData(): boolean {
  const { connection } = navigator as { connection?: { saveData?: boolean } };
  return connection?.saveData === true;
}
