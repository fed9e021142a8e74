import { useEffect, useState } from "react";
import { isHearing } from "@/lib/client/hearing/hearingWords";
import { request } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { HearingStatus, SongRow } from "@/lib/contracts/books";

const ASK_EVERY_MS = 1500;

/** How far the hearing of each song is, asked anew while anything runs. */
export function useBookHearing(
  bookId: string,
  songs: SongRow[],
): Readonly<Record<string, HearingStatus | null>> {
  const [asked, setAsked] = useState<Record<string, HearingStatus | null>>({});
  const shown = Object.fromEntries(songs.map((song) => [song.id, asked[song.id] ?? song.hearing]));
  const anyRuns = Object.values(shown).some(isHearing);

  useEffect(() => {
    if (!anyRuns) return;
    const leaving = new AbortController();
    const ask = async () => {
      try {
        setAsked(
          await request<Record<string, HearingStatus | null>>(
            "GET",
            api.bookHearing(bookId),
            undefined,
            leaving.signal,
          ),
        );
      } catch {
        // The next question may be answered; the last answer stays on the page.
      }
    };
    const timer = setInterval(ask, ASK_EVERY_MS);
    void ask();
    return () => {
      clearInterval(timer);
      leaving.abort();
    };
  }, [anyRuns, bookId]);

  return shown;
}
