"use client";

import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import type { CopedentPage, SharedIn } from "@/lib/contracts/copedents";
import styles from "./inHand.module.css";
import { useSharing } from "./Sharing";

/** In which books the others see it. */
export function ShareInBooks({ kept }: { kept: CopedentPage }) {
  const isReady = useIsReady();
  const { sharedIn, word, fault, share } = useSharing();
  // One is shared on where one no longer writes: it can still be hidden there.
  const books = [
    ...kept.books,
    ...kept.sharedIn.filter(({ bookId }) => !kept.books.some((book) => book.bookId === bookId)),
  ];

  return (
    <section aria-labelledby="share-title">
      <h2 id="share-title">Shared in your books</h2>
      <p>{whoSeesIt(books.filter(({ bookId }) => sharedIn.includes(bookId)))}</p>
      {books.length === 0 ? (
        <p className={controls.note}>There is no book in which you write.</p>
      ) : (
        <ul className={styles.books}>
          {books.map(({ bookId, bookTitle }) => (
            <li key={bookId}>
              <label className={styles.check}>
                <input
                  type="checkbox"
                  checked={sharedIn.includes(bookId)}
                  disabled={!isReady}
                  onChange={(event) => share(bookId, bookTitle, event.target.checked)}
                />
                {bookTitle}
              </label>
            </li>
          ))}
        </ul>
      )}
      <p className={controls.note}>
        Where a part is played on it, whoever sees the part sees its chart too: the part keeps a copy. So does
        every new song of yours while it is your usual guitar.
      </p>
      <p className={controls.note} role="status">
        {word}
      </p>
      <FaultWords words={fault} />
    </section>
  );
}

function whoSeesIt(books: readonly SharedIn[]): string {
  if (books.length === 0) return "Only you see it.";
  const titles = books.map(({ bookTitle }) => bookTitle);
  const last = titles.at(-1);
  return `You see it, and the members of ${titles.length > 1 ? `${titles.slice(0, -1).join(", ")} and ${last}` : last}.`;
}
