"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { keptSongsHere } from "@/lib/client/kept/KeptSongs";
import { request } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";
import type { BookCard } from "@/lib/contracts/books";
import type { FoundAct } from "./ActSearch";
import { laterPart } from "./laterPart";
import { SearchButton } from "./SearchButton";
import { useSearchKey } from "./useSearchKey";

const { Part: ActSearch } = laterPart(() => import("./ActSearch").then(({ ActSearch }) => ActSearch));

/** The search of acts on every page but the song's: the ways to books, songs that were open here, and copedents. */
export function PageSearch() {
  const router = useRouter();
  const [acts, setActs] = useState<FoundAct[] | null>(null);
  const open = async () => {
    const to = (name: string, place: string, address: string): FoundAct => ({
      id: address,
      name,
      place,
      label: null,
      lack: null,
      run: () => router.push(address),
    });
    const places = [
      to("go to all books", "Pages", pages.books()),
      to("go to the copedents", "Pages", pages.copedents()),
      to("see what is kept in this browser", "Pages", pages.kept()),
    ];
    setActs(places);
    // What cannot be had is left out; the search says nothing that it does not know.
    const [books, songs] = await Promise.all([
      request<BookCard[]>("GET", api.books()).catch(() => []),
      keptSongsHere()
        ?.shelf()
        .catch(() => []) ?? [],
    ]);
    setActs(
      (before) =>
        before && [
          ...songs.map(({ page }) =>
            to(`open ${page.title}`, `Song of ${page.bookTitle}`, pages.song(page.id)),
          ),
          ...books.map(({ id, title }) => to(`open ${title}`, "Book", pages.book(id))),
          ...places,
        ],
    );
  };
  useSearchKey(open);
  return (
    <>
      <SearchButton onSearch={open} />
      {acts ? <ActSearch acts={acts} onClose={() => setActs(null)} /> : null}
    </>
  );
}
