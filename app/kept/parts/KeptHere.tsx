"use client";

import { lazy, Suspense, useEffect, useState } from "react";
import { SongSkeleton } from "@/app/songs/[songId]/parts/SongSkeleton";
import { type KeptSong, keptSongsHere } from "@/lib/client/kept/KeptSongs";
import { songOfPage } from "@/lib/client/offline/wayOf";
import { pages } from "@/lib/contracts/api";
import { Shelf } from "./Shelf";

const SongDesk = lazy(() =>
  import("@/app/songs/[songId]/parts/SongDesk").then((module) => ({ default: module.SongDesk })),
);

/** What stands here before the browser has looked. */
const LOOKING = "Looking what is kept in this browser";

/** The song whose address this is, as it is kept in this browser; where none is, or at any other address, all that is kept. */
export function KeptHere() {
  const [found, setFound] = useState<{ song: KeptSong | null; path: string } | null>(null);
  useEffect(() => {
    const path = window.location.pathname;
    const songId = songOfPage(path);
    const looking = songId === null ? null : keptSongsHere()?.find(songId);
    Promise.resolve(looking).then(
      (song) => setFound({ song: song ?? null, path }),
      () => setFound({ song: null, path }),
    );
  }, []);
  const page = found?.song?.page;
  useEffect(() => {
    if (page) document.title = `${page.title} · Liftbook`;
  }, [page]);
  if (!found) return <SongSkeleton words={LOOKING} />;
  if (!page) return <Shelf isAsked={found.path === pages.kept()} />;
  return (
    <Suspense fallback={<SongSkeleton words={`Opening ${page.title}`} />}>
      <SongDesk page={page} />
    </Suspense>
  );
}
