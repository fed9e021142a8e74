import { useEffect, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { SongNotes } from "@/lib/contracts/notes";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { request, wordsOf } from "../requests/request";

/** The band's notes: fetched when they are first asked to be seen, and anew after another hearing. */
export interface BandNotes {
  isWanted: boolean;
  /** What is to be drawn; null while they are hidden, under way, or where the song has none. */
  shown: readonly HeardNote[] | null;
  /** Why there is nothing to see, in words; null where there is. */
  word: string | null;
  toggle(): void;
}

const WHY_NONE: Record<SongNotes["state"], string | null> = {
  heard: null,
  noEar: "This house has no learned ear, which it takes to hear notes.",
  notHeard: "Nobody has listened for notes in this song so far. Have it heard again.",
};

const NO_BAND = "No notes were heard but the steel's.";

/** @param runId the hearing that the song's pencil comes from; null before any */
export function useBandNotes(songId: string, runId: string | null): BandNotes {
  const [isWanted, setWanted] = useState(false);
  const [notes, setNotes] = useState<readonly HeardNote[] | null>(null);
  const [word, setWord] = useState<string | null>(null);

  useEffect(() => {
    if (!isWanted || runId === null) return;
    const scope = new AbortController();
    setWord(null);
    request<SongNotes>("GET", api.notes(songId), undefined, scope.signal).then(
      (answer) => {
        setNotes(answer.notes);
        setWord(WHY_NONE[answer.state] ?? (answer.notes.length === 0 ? NO_BAND : null));
      },
      (thrown: unknown) => {
        if (!scope.signal.aborted) setWord(wordsOf(thrown));
      },
    );
    return () => scope.abort();
  }, [songId, runId, isWanted]);

  return {
    isWanted,
    shown: isWanted ? notes : null,
    word: isWanted ? word : null,
    toggle: () => setWanted((wanted) => !wanted),
  };
}
