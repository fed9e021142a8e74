import { useEffect, useMemo, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { SongNotes } from "@/lib/contracts/notes";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { request, wordsOf } from "../requests/request";
import { type BandNote, bandBeside } from "../song/heardList";

/** The band's notes: fetched when they are first asked to be seen, and anew after another hearing. */
export interface BandNotes {
  isWanted: boolean;
  /** Those that are no record of the song; null while they are hidden, under way, or where the song has none. */
  shown: readonly BandNote[] | null;
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

/** The band's notes beside those of the song as it now is; of the hearing that its pencil comes from. */
export function useBandNotes(songId: string, song: SongSnapshot): BandNotes {
  const runId = song.heard?.runId ?? null;
  const { notes: steel, bandNotes } = song;
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

  const beside = useMemo(
    () => notes && bandBeside(notes, { notes: steel, bandNotes }),
    [notes, steel, bandNotes],
  );
  return {
    isWanted,
    shown: isWanted ? beside : null,
    word: isWanted ? word : null,
    toggle: () => setWanted((wanted) => !wanted),
  };
}
