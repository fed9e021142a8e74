"use client";

import { useEffect, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { Mark } from "@/app/parts/Mark";
import masthead from "@/app/parts/Masthead.module.css";
import look from "@/app/parts/page.module.css";
import { ThemeSwitch } from "@/app/parts/ThemeSwitch";
import { bytesText, momentText } from "@/lib/client/format/format";
import { KEPT_LIMIT_BYTES, type KeptSong, keptSongsHere } from "@/lib/client/kept/KeptSongs";
import { pages } from "@/lib/contracts/api";
import styles from "./shelf.module.css";

/**
 * All songs that open without the server.
 * @param isAsked whether it was asked for by its own address; else it stands in for a page that is not kept
 */
export function Shelf({ isAsked }: { isAsked: boolean }) {
  const [songs, setSongs] = useState<KeptSong[] | null>(null);
  const lookAgain = () =>
    (keptSongsHere()?.shelf() ?? Promise.resolve([])).then(setSongs, () => setSongs([]));
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at once, and after each act.
  useEffect(() => void lookAgain(), []);
  const forget = async (songId: string | null) => {
    const kept = keptSongsHere();
    await (songId === null ? kept?.forgetAllBut(null) : kept?.forgetSong(songId));
    await lookAgain();
  };
  const takenBytes = (songs ?? []).reduce((sum, { byteCount }) => sum + byteCount, 0);
  return (
    <>
      <header className={masthead.masthead}>
        <Mark href={pages.books()} />
        <div className={masthead.side}>
          <ThemeSwitch />
        </div>
      </header>
      <main className={look.page}>
        <div className={look.head}>
          <h1>{isAsked ? "Kept in this browser" : "The server is not reached"}</h1>
          <p className={look.lead}>
            {isAsked
              ? "These songs open without a connection, too. What you write then goes across when the connection is back. Signing out gives them up."
              : "The page you asked for comes from the server. Nothing you wrote is lost. These songs are kept in this browser and open without it:"}
          </p>
          {isAsked ? null : (
            <p>
              <button type="button" className={controls.act} onClick={() => window.location.reload()}>
                Try again
              </button>
            </p>
          )}
        </div>
        {songs?.length === 0 ? <p className={controls.note}>{emptyWords()}</p> : null}
        <ul className={styles.songs}>
          {(songs ?? []).map(({ songId, page, visitedAtMs, byteCount, hasRecord }) => (
            <li key={songId}>
              {/* No link of the router: it would ask the server for the page's parts first. */}
              <a href={pages.song(songId)}>{page.title}</a>
              <span className={controls.note}>
                {page.bookTitle}; opened {momentText(visitedAtMs)};{" "}
                {hasRecord ? `${bytesText(byteCount)} with its recording` : "without its recording"}
              </span>
              <button type="button" className={controls.button} onClick={() => forget(songId)}>
                Give it up<span className="unseen">: {page.title}</span>
              </button>
            </li>
          ))}
        </ul>
        {songs?.length ? (
          <p className={styles.foot}>
            <span className={controls.note}>
              {bytesText(takenBytes)} of {bytesText(KEPT_LIMIT_BYTES)}; where room is wanting, what was not
              opened for the longest goes first.
            </span>
            <button type="button" className={controls.button} onClick={() => forget(null)}>
              Give all up
            </button>
          </p>
        ) : null}
      </main>
    </>
  );
}

function emptyWords(): string {
  return keptSongsHere()
    ? "No song is kept yet. Open one while the server is reached: after a few seconds it opens here without it, with its recording where there is room."
    : "This browser keeps no pages at this address; it does so at https addresses and on the machine itself.";
}
