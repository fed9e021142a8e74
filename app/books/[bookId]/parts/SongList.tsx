"use client";

import Link from "next/link";
import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { clockText } from "@/lib/client/format/format";
import { hearingWords, isHearing } from "@/lib/client/hearing/hearingWords";
import { pages } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import styles from "./book.module.css";
import { useBookHearing } from "./useBookHearing";

/** The songs of a book, with how far the machine is with each. */
export function SongList({ bookId, songs }: { bookId: string; songs: SongRow[] }) {
  const hearing = useBookHearing(bookId, songs);
  if (songs.length === 0) return <p className={controls.note}>No songs yet. Add a recording to begin.</p>;
  return (
    <ol className={styles.songs}>
      {songs.map((song, index) => {
        const status = hearing[song.id] ?? null;
        return (
          <li key={song.id} className={styles.song}>
            <span className={styles.count}>{index + 1}</span>
            <div className={styles.title}>
              <Link href={pages.song(song.id)}>{song.title}</Link>
              <p className={controls.small}>added by {song.addedByName}</p>
            </div>
            <span className={styles.figure}>{clockText(song.durationSec)}</span>
            <div className={styles.heard}>
              {status ? (
                <>
                  <span className={status.state === "failed" ? styles.failed : controls.small} role="status">
                    {hearingWords(status)}
                  </span>
                  {isHearing(status) ? <Bar label={hearingWords(status)} fraction={status.fraction} /> : null}
                </>
              ) : (
                <span className={controls.small}>not yet heard</span>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
