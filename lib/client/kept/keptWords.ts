import type { SongKept } from "./useKeepSong";

/** What being offline means for the open song, in words. */
export function offlineWords(kept: SongKept, mayWrite: boolean): string {
  const written = mayWrite
    ? " What you write is kept here too, and goes across when the connection is back."
    : " You may look and listen.";
  switch (kept) {
    case "whole":
      return `Offline. This song and its recording are kept in this browser.${written}`;
    case "page":
      return `Offline. This song is kept in this browser, its recording is not, so it may fall silent.${written}`;
    default:
      return mayWrite
        ? "Offline. What you write is kept in this browser and goes across when the connection is back. This page is not kept: leave it open."
        : "Offline. This page is not kept in this browser: leave it open.";
  }
}
