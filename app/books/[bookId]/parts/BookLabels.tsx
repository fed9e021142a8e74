"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { api } from "@/lib/contracts/api";
import styles from "./book.module.css";
import { TakeLabels } from "./TakeLabels";

/** What people made of what was heard in all songs of the book, for its maker. */
export function BookLabels({ bookId, title }: { bookId: string; title: string }) {
  const isReady = useIsReady();
  const [isOpen, setIsOpen] = useState(false);
  return (
    <section className={styles.labels} aria-labelledby="labels-title">
      <h2 id="labels-title">Labels</h2>
      <p className={controls.note}>
        What was inked, corrected and rubbed out in these songs, as one file to measure the ear by. It is made
        only when you take it.
      </p>
      <button type="button" className={controls.button} disabled={!isReady} onClick={() => setIsOpen(true)}>
        Take the labels of all songs
      </button>
      {isOpen ? (
        <TakeLabels of={title} address={api.bookLabels(bookId)} onClose={() => setIsOpen(false)} />
      ) : null}
    </section>
  );
}
