import type { Metadata } from "next";
import Link from "next/link";
import { pages } from "@/lib/contracts/api";
import { house } from "@/lib/server/house";
import { listBooks } from "@/lib/server/services/listBooks";
import controls from "../parts/controls.module.css";
import { Masthead } from "../parts/Masthead";
import page from "../parts/page.module.css";
import { signedIn } from "../signedIn";
import styles from "./parts/books.module.css";
import { NewBook } from "./parts/NewBook";

export const metadata: Metadata = { title: "Books" };

export default async function BooksPage() {
  const actor = await signedIn(pages.books());
  const books = await listBooks(house().db, actor);
  return (
    <>
      <Masthead name={actor.name} />
      <main className={page.page}>
        <div className={page.head}>
          <h1>Books</h1>
          <p className={page.lead}>
            A book holds songs and the people who work on them. Nobody outside a book can see that it exists.
          </p>
        </div>
        {books.length === 0 ? (
          <p className={styles.none}>
            You are in no book yet. Make one for a band, a class or yourself: then add a recording to it, and
            invite whoever works on it with you. If someone sent you a link, open it, and their book stands
            here.
          </p>
        ) : null}
        <ul className={styles.cards}>
          {books.map((book) => (
            <li key={book.id}>
              <Link className={styles.card} href={pages.book(book.id)}>
                <h2>{book.title}</h2>
                <p>
                  {count(book.songCount, "song")}, {count(book.memberCount, "member")}
                </p>
                <p className={controls.small}>
                  {book.isMaker ? `you made it; ${book.role}` : `you are a ${book.role} here`}
                </p>
              </Link>
            </li>
          ))}
        </ul>
        <NewBook />
        <p className={styles.kept}>
          <Link href={pages.kept()}>Songs kept in this browser</Link>, which open without a connection.
        </p>
      </main>
    </>
  );
}

function count(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
