"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";

/** Asks before a song goes, and says what goes with it: nothing brings it back. */
export function RemoveSong({ song, onClose }: { song: SongRow; onClose: () => void }) {
  const router = useRouter();
  const [fault, setFault] = useState<string | null>(null);
  const [isSending, setIsSending] = useState(false);

  async function remove() {
    setFault(null);
    setIsSending(true);
    try {
      await request("DELETE", api.song(song.id));
      router.refresh();
      onClose();
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setIsSending(false);
    }
  }

  return (
    <Sheet title="Remove this song" size="narrow" onClose={onClose}>
      <div className={sheet.body}>
        <p>
          <strong>{song.title}</strong> goes for everyone in this book: its recording, its changes and its
          part, in pencil and in ink. Nothing brings them back. To keep the part, open the song and take its
          tab out first.
        </p>
        {fault ? (
          <p className={controls.fault} role="alert">
            {fault}
          </p>
        ) : null}
      </div>
      <div className={sheet.acts}>
        <button type="button" className={controls.warn} disabled={isSending} onClick={remove}>
          Remove it for good
        </button>
        <button type="button" className={controls.button} onClick={onClose}>
          Keep it
        </button>
      </div>
    </Sheet>
  );
}
