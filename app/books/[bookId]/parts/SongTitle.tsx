"use client";

import Link from "next/link";
import { useRouter } from "next/navigation";
import { type SyntheticEvent, useEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";
import styles from "./book.module.css";

/** A song's title, which leads to its page; or the field in which it is renamed. */
export function SongTitle({
  song,
  isRenaming,
  onDone,
}: {
  song: SongRow;
  isRenaming: boolean;
  onDone: () => void;
}) {
  if (isRenaming) return <RenameForm song={song} onDone={onDone} />;
  return (
    <div className={styles.title}>
      <Link href={pages.song(song.id)}>{song.title}</Link>
      <p className={controls.small}>added by {song.addedByName}</p>
    </div>
  );
}

function RenameForm({ song, onDone }: { song: SongRow; onDone: () => void }) {
  const router = useRouter();
  const [fault, setFault] = useState<string | null>(null);
  const [isSending, setIsSending] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);

  async function rename(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    const title = (field.current?.value ?? "").trim();
    if (title === song.title) return onDone();
    setFault(null);
    setIsSending(true);
    try {
      await request<SongRow>("PATCH", api.song(song.id), { title });
      router.refresh();
      onDone();
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setIsSending(false);
    }
  }

  return (
    <form
      className={styles.rename}
      onSubmit={rename}
      onKeyDown={(event) => {
        if (event.key === "Escape") onDone();
      }}
    >
      <input
        ref={field}
        className={controls.input}
        aria-label="Title of the song"
        defaultValue={song.title}
        maxLength={200}
        required
        pattern=".*\S.*"
        title="A title of one letter or more"
      />
      <button type="submit" className={controls.act} disabled={isSending}>
        Rename it
      </button>
      <button type="button" className={controls.plain} onClick={onDone}>
        Leave it
      </button>
      <FaultWords words={fault} />
    </form>
  );
}
