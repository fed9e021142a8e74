import type { Metadata } from "next";
import { cache } from "react";
import controls from "@/app/parts/controls.module.css";
import { Masthead } from "@/app/parts/Masthead";
import { orNotFound, signedIn } from "@/app/signedIn";
import { pages } from "@/lib/contracts/api";
import { WRITING_ROLES } from "@/lib/contracts/roles";
import { house } from "@/lib/server/house";
import { readBook } from "@/lib/server/services/readBook";
import { readLimits } from "@/lib/server/services/readLimits";
import { AddRecording } from "./parts/AddRecording";
import { BookLabels } from "./parts/BookLabels";
import styles from "./parts/book.module.css";
import { Invites } from "./parts/Invites";
import { SongList } from "./parts/SongList";

interface Props {
  params: Promise<{ bookId: string }>;
}

/** Read once a request, for the title and for the page. */
const openBook = cache(async (bookId: string) => {
  const actor = await signedIn(pages.book(bookId));
  return { actor, book: await orNotFound(readBook(house().db, actor, bookId)) };
});

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await openBook((await params).bookId)).book.title };
}

export default async function BookPage({ params }: Props) {
  const { actor, book } = await openBook((await params).bookId);
  const limits = await readLimits(house().config);
  const mayWrite = WRITING_ROLES.includes(book.role);
  return (
    <>
      <Masthead name={actor.name} />
      <div className={styles.columns}>
        <main className={styles.main}>
          <div className={styles.head}>
            <h1>{book.title}</h1>
            <p className={controls.note}>
              {book.songs.length === 1 ? "1 song" : `${book.songs.length} songs`}; you are a {book.role} here.
            </p>
          </div>
          {mayWrite ? <AddRecording bookId={book.id} limits={limits} /> : null}
          <SongList
            bookId={book.id}
            songs={book.songs}
            me={{ userId: actor.userId, isMaker: book.isMaker, mayWrite }}
          />
        </main>
        <aside className={styles.aside} aria-label="People">
          <section aria-labelledby="members-title">
            <h2 id="members-title">Members</h2>
            <ul className={styles.members}>
              {book.members.map((member) => (
                <li key={member.userId}>
                  <strong>{member.name}</strong>
                  <span className={controls.note}>
                    {member.role}
                    {member.isMaker ? ", made the book" : ""}
                  </span>
                </li>
              ))}
            </ul>
          </section>
          {book.isMaker ? <Invites bookId={book.id} invites={book.invites} /> : null}
          {book.isMaker && book.songs.length > 0 ? <BookLabels bookId={book.id} title={book.title} /> : null}
        </aside>
      </div>
    </>
  );
}
