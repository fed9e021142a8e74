"use client";

import { createContext, type ReactNode, useContext, useRef, useState } from "react";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { CopedentPage } from "@/lib/contracts/copedents";

interface Sharing {
  /** Ids of the books where it is shared, as far as this page knows. */
  sharedIn: readonly string[];
  /** What the last act did. */
  word: string;
  fault: string | null;
  share(bookId: string, bookTitle: string, isWanted: boolean): Promise<void>;
}

const SharingHere = createContext<Sharing | null>(null);

/**
 * In which books a copedent is shared, above the chart's desk: that is made anew where the chart was changed elsewhere, and
 * what is being shared meanwhile stands.
 */
export function SharingProvider({ kept, children }: { kept: CopedentPage; children: ReactNode }) {
  const [sharedIn, setSharedIn] = useState(() => kept.sharedIn.map(({ bookId }) => bookId));
  const [word, setWord] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  // One after the other: of two at once the earlier might come last, and share what was just hidden.
  const last = useRef<Promise<void>>(Promise.resolve());

  async function share(bookId: string, bookTitle: string, isWanted: boolean): Promise<void> {
    setFault(null);
    setWord("");
    const mark = (isOn: boolean) =>
      setSharedIn((before) => [...before.filter((id) => id !== bookId), ...(isOn ? [bookId] : [])]);
    mark(isWanted);
    try {
      const sent = last.current.then(() =>
        request(isWanted ? "PUT" : "DELETE", api.copedentInBook(kept.id, bookId)),
      );
      last.current = sent.then(noop, noop);
      await sent;
      setWord(
        isWanted
          ? `The members of ${bookTitle} see it now, and can play parts on it.`
          : `The members of ${bookTitle} no longer see it. Parts that were written on it keep their copy.`,
      );
    } catch (thrown) {
      mark(!isWanted);
      setFault(wordsOf(thrown));
    }
  }

  return <SharingHere value={{ sharedIn, word, fault, share }}>{children}</SharingHere>;
}

export function useSharing(): Sharing {
  const sharing = useContext(SharingHere);
  if (!sharing) throw new Error("Sharing stands within its provider.");
  return sharing;
}

function noop(): void {}
