import { useEffect, useMemo, useState } from "react";
import { api } from "@/lib/contracts/api";
import type { SongNotes } from "@/lib/contracts/notes";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { HeardNote } from "@/lib/hearing/Hearing";
import { request, wordsOf } from "../requests/request";
import { type BandNote, bandBeside } from "../song/heardList";
import { bandOver, type HeardAlone } from "./passage/bandOver";

/** The band's notes: fetched when they are first asked to be seen, and anew after another hearing. */
export interface BandNotes {
  isWanted: boolean;
  /** Those that are no record of the song; null while they are hidden, under way, or where the song has none. */
  shown: readonly BandNote[] | null;
  /** Why there is nothing to see, in words; null where there is. */
  word: string | null;
  toggle(): void;
  /** Puts the notes of a passage that was heard alone in place of the band's there, for as long as the page stands. */
  takeIn(passage: HeardAlone): void;
}

const WHY_NONE: Record<SongNotes["state"], string | null> = {
  heard: null,
  noEar: "This house has no learned ear, which it takes to hear notes.",
  notHeard: "Nobody has listened for notes in this song so far. Have it heard again.",
};

/** What was heard of passages since the hearing of the whole song. */
const NONE_SINCE = { runId: null, passages: [] };

const NO_BAND = "No notes were heard but the steel's.";

/** The band's notes beside those of the song as it now is; of the hearing that its pencil comes from. */
export function useBandNotes(songId: string, song: SongSnapshot): BandNotes {
  const runId = song.heard?.runId ?? null;
  const { notes: steel, bandNotes } = song;
  const [isWanted, setWanted] = useState(false);
  const [notes, setNotes] = useState<readonly HeardNote[] | null>(null);
  const [word, setWord] = useState<string | null>(null);
  const [since, setSince] = useState<{ runId: string | null; passages: readonly HeardAlone[] }>(NONE_SINCE);
  const passages = since.runId === runId ? since.passages : NONE_SINCE.passages;

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
    () =>
      notes || passages.length > 0
        ? bandBeside(bandOver(notes ?? [], passages), { notes: steel, bandNotes })
        : null,
    [notes, passages, steel, bandNotes],
  );
  return {
    isWanted,
    shown: isWanted ? beside : null,
    word: isWanted ? word : null,
    toggle: () => setWanted((wanted) => !wanted),
    takeIn: (passage) =>
      setSince((before) => ({
        runId,
        passages: [...(before.runId === runId ? before.passages : []), passage],
      })),
  };
}
