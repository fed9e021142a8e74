"use client";

import { useRouter } from "next/navigation";
import { RemovalSheet } from "@/app/parts/RemovalSheet";
import { api } from "@/lib/contracts/api";
import type { SongRow } from "@/lib/contracts/books";

/** Asks before a song goes, and says what goes with it: nothing brings it back. */
export function RemoveSong({ song, onClose }: { song: SongRow; onClose: () => void }) {
  const router = useRouter();
  return (
    <RemovalSheet
      title="Remove this song"
      address={api.song(song.id)}
      onRemoved={() => {
        router.refresh();
        onClose();
      }}
      onClose={onClose}
    >
      <strong>{song.title}</strong> goes for everyone in this book: its recording, its changes and its part,
      in pencil and in ink. Nothing brings them back. To keep the part, open the song and take its tab out
      first.
    </RemovalSheet>
  );
}
