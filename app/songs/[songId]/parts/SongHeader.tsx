"use client";

import Link from "next/link";
import controls from "@/app/parts/controls.module.css";
import { Mark } from "@/app/parts/Mark";
import { SearchButton } from "@/app/parts/SearchButton";
import { ThemeSwitch } from "@/app/parts/ThemeSwitch";
import { initials, type Other } from "@/lib/client/song/presence";
import { pages } from "@/lib/contracts/api";
import { AskButton } from "./AskButton";
import { useDesk } from "./DeskContext";
import { HeaderFacts } from "./HeaderFacts";
import styles from "./header.module.css";
import { SavedSign } from "./SavedSign";

/** A person with two windows is one person. */
function onePerPerson(others: readonly Other[]): Other[] {
  return others.filter((other, index) => others.findIndex(({ user }) => user.id === other.user.id) === index);
}

/** The head of the song page: where one is, what is known of the song, who is here, and whether it is saved. */
export function SongHeader({ onSearch }: { onSearch: () => void }) {
  const { page, opened } = useDesk();
  const isMaker = page.members.some((member) => member.userId === page.me.id && member.isMaker);
  return (
    <header className={styles.header}>
      <Mark href={pages.books()} />
      <p className={styles.where}>
        <Link className={controls.thumb} href={pages.book(page.bookId)}>
          {page.bookTitle}
        </Link>
        <span aria-hidden="true"> / </span>
      </p>
      <h1 className={styles.title}>{page.title}</h1>
      <HeaderFacts />
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
        <AskButton className={`${controls.button} ${styles.ask}`} />
        <SearchButton onSearch={onSearch} />
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
