"use client";

import Link from "next/link";
import controls from "@/app/parts/controls.module.css";
import { Mark } from "@/app/parts/Mark";
import { ThemeSwitch } from "@/app/parts/ThemeSwitch";
import { centsText, printed } from "@/lib/client/format/format";
import { initials, type Other } from "@/lib/client/song/presence";
import { pages } from "@/lib/contracts/api";
import { keyToWords } from "@/lib/theory/key";
import { useDesk } from "./DeskContext";
import styles from "./header.module.css";
import { SavedSign } from "./SavedSign";
import { keyAt } from "./selection";

/** A person with two windows is one person. */
function onePerPerson(others: readonly Other[]): Other[] {
  return others.filter((other, index) => others.findIndex(({ user }) => user.id === other.user.id) === index);
}

/** The head of the song page: where one is, what is known of the song, who is here, and whether it is saved. */
export function SongHeader() {
  const { page, opened, grid, copedent } = useDesk();
  const { tuning, homes } = opened.song;
  const isMaker = page.members.some((member) => member.userId === page.me.id && member.isMaker);
  const home = homes.length > 0 ? printed(keyToWords(keyAt(opened.song, 0))) : null;
  return (
    <header className={styles.header}>
      <Mark href={pages.books()} />
      <p className={styles.where}>
        <Link href={pages.book(page.bookId)}>{page.bookTitle}</Link>
        <span aria-hidden="true"> / </span>
      </p>
      <h1 className={styles.title}>{page.title}</h1>
      <dl className={styles.facts}>
        <div>
          <dt>Home</dt>
          <dd>{home ?? "not known"}</dd>
        </div>
        {grid ? (
          <div>
            <dt className="unseen">Tempo and meter</dt>
            <dd>
              <b>{Math.round(grid.tempoBpm)}</b> bpm · {grid.beatsPerBar}/4
            </dd>
          </div>
        ) : null}
        {tuning ? (
          <div>
            <dt>runs</dt>
            <dd>
              <b>{centsText(tuning.tuningCents)}</b> of A440
            </dd>
          </div>
        ) : null}
        <div className={styles.instrument}>
          <dt className="unseen">Instrument</dt>
          <dd title={copedent.name}>
            {copedent.id.toUpperCase()}, {copedent.strings.length} strings
          </dd>
        </div>
      </dl>
      <div className={styles.side}>
        <SavedSign />
        <ul className={styles.people} aria-label="People on this page">
          <li className={styles.me} title={`${page.me.name} (you)`}>
            <span aria-hidden="true">{initials(page.me.name)}</span>
            <span className="unseen">{page.me.name} (you)</span>
          </li>
          {onePerPerson(opened.others).map((other) => (
            <li key={other.clientId} title={other.user.name}>
              <span aria-hidden="true">{initials(other.user.name)}</span>
              <span className="unseen">{other.user.name}</span>
            </li>
          ))}
        </ul>
        <ThemeSwitch />
        {isMaker ? (
          <Link className={controls.act} href={`${pages.book(page.bookId)}#invite`}>
            Invite
          </Link>
        ) : null}
      </div>
    </header>
  );
}
