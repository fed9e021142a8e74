"use client";

import { useState } from "react";
import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { clockText } from "@/lib/client/format/format";
import { hearingWords, isHearing } from "@/lib/client/hearing/hearingWords";
import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import styles from "./book.module.css";
import { RemoveSong } from "./RemoveSong";
import { SongTitle } from "./SongTitle";
import { TakeLabels } from "./TakeLabels";
import { useBookHearing } from "./useBookHearing";

/** The songs of a book, with how far the machine is with each. */
export function SongList({
  bookId,
  songs,
  me,
}: {
  bookId: string;
  songs: SongRow[];
  me: { userId: string; isMaker: boolean; mayWrite: boolean };
}) {
  const hearing = useBookHearing(bookId, songs);
  const [renamingId, setRenamingId] = useState<string | null>(null);
  const [removing, setRemoving] = useState<SongRow | null>(null);
  const [labelled, setLabelled] = useState<SongRow | null>(null);
  if (songs.length === 0)
    return (
      <p className={styles.none}>
        {me.mayWrite
          ? "No songs yet. Drag a recording onto this page, or choose one above: its beats, home, changes and the steel's notes then come in pencil, within moments."
          : "No songs yet. The book's teachers and students add them."}
      </p>
    );
  return (
    <>
      <ol className={styles.songs}>
        {songs.map((song, index) => {
          const status = hearing[song.id] ?? null;
          return (
            <li key={song.id} className={styles.song}>
              <span className={styles.count} aria-hidden="true">
                {index + 1}
              </span>
              <SongTitle song={song} isRenaming={renamingId === song.id} onDone={() => setRenamingId(null)} />
              <span className={styles.figure}>{clockText(song.durationSec)}</span>
              <div className={styles.heard}>
                {status ? (
                  <>
                    <span
                      className={status.state === "failed" ? styles.failed : controls.small}
                      role="status"
                    >
                      {hearingWords(status)}
                    </span>
                    {isHearing(status) ? (
                      <Bar label={hearingWords(status)} fraction={status.fraction} />
                    ) : null}
                  </>
                ) : (
                  <span className={controls.small}>not yet heard</span>
                )}
              </div>
              <div className={styles.songActs}>
                {me.mayWrite ? (
                  <button
                    type="button"
                    className={controls.plain}
                    aria-label={`Rename ${song.title}`}
                    onClick={() => setRenamingId(song.id)}
                  >
                    Rename
                  </button>
                ) : null}
                {me.isMaker || song.addedById === me.userId ? (
                  <>
                    <button
                      type="button"
                      className={controls.plain}
                      aria-label={`Take the labels of ${song.title}`}
                      onClick={() => setLabelled(song)}
                    >
                      Labels
                    </button>
                    <button
                      type="button"
                      className={controls.plain}
                      aria-label={`Remove ${song.title}`}
                      onClick={() => setRemoving(song)}
                    >
                      Remove
                    </button>
                  </>
                ) : null}
              </div>
            </li>
          );
        })}
      </ol>
      {labelled ? (
        <TakeLabels
          of={labelled.title}
          address={api.songLabels(labelled.id)}
          onClose={() => setLabelled(null)}
        />
      ) : null}
      {removing ? <RemoveSong song={removing} onClose={() => setRemoving(null)} /> : null}
    </>
  );
}
