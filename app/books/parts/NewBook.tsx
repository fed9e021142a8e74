"use client";

import { useRouter } from "next/navigation";
import { type SyntheticEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";
import type { BookCard } from "@/lib/contracts/books";
import styles from "./books.module.css";

/** Makes a book and opens it. */
export function NewBook() {
  const router = useRouter();
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const isReady = useIsReady();

  async function make(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    const title = String(new FormData(event.currentTarget).get("title") ?? "");
    setBusy(true);
    setFault(null);
    try {
      const book = await request<BookCard>("POST", api.books(), { title });
      router.push(pages.book(book.id));
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setBusy(false);
    }
  }

  return (
    <form className={styles.make} onSubmit={make}>
      <label className={controls.field}>
        Title of a new book
        <input
          className={controls.input}
          name="title"
          required
          maxLength={120}
          placeholder="Tuesday lessons"
        />
      </label>
      <button type="submit" className={controls.act} disabled={busy || !isReady}>
        Make the book
      </button>
      <FaultWords words={fault} />
    </form>
  );
}
