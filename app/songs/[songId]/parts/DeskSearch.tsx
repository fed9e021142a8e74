"use client";

import { useRouter } from "next/navigation";
import { useMemo } from "react";
import { ActSearch, type FoundAct } from "@/app/parts/ActSearch";
import { chooseTheme, shownTheme } from "@/lib/client/theme/theme";
import { pages } from "@/lib/contracts/api";
import { useDesk } from "./DeskContext";
import { deskActs } from "./deskActs";
import { withClip } from "./laterClip";
import { partsActs } from "./partsActs";
import { chosenEvents } from "./selection";

/** The search of all acts of the song page: those with keys, the sheets that have none, and the ways to other pages. */
export function DeskSearch({
  onClose,
  onTab,
  onWalk,
}: {
  onClose: () => void;
  onTab: () => void;
  onWalk: () => void;
}) {
  const desk = useDesk();
  const router = useRouter();
  // What can be done stands as it was when the search was opened: nothing is selected behind it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
  const acts = useMemo(() => {
    const { page, guitar, parts } = desk;
    const count = chosenEvents(desk.opened.song, desk.selection).length;
    const chosen = count === 0 ? null : count === 1 ? "the event" : `the ${count} events`;
    const here = (name: string, run: () => void): FoundAct => ({
      id: name,
      name,
      place: "This page",
      label: null,
      lack: null,
      run,
    });
    const to = (name: string, address: string): FoundAct => ({
      ...here(name, () => router.push(address)),
      place: "Other pages",
    });
    return [
      ...deskActs(desk),
      here("take the part as text tab", onTab),
      here("see the parts of the song: add one, name it, take it away", () => parts.openSheet(true)),
      ...parts.list
        .filter(({ id }) => id !== parts.atHand.id)
        .map((part) => here(`take ${parts.nameOf(part.id)} in hand`, () => partsActs(desk).take(part))),
      ...(chosen === null || !desk.mayWritePart
        ? []
        : parts.list
            .filter(({ id }) => id !== parts.atHand.id)
            .map((part) =>
              here(`move ${chosen} to ${parts.nameOf(part.id)}`, () =>
                withClip(desk.now(), (clip) => clip.moveTo(part)),
              ),
            )),
      here("choose the part's guitar, or carry the part over", () => guitar.openSheet(true)),
      here("change between paper and stage", () => chooseTheme(shownTheme() === "paper" ? "stage" : "paper")),
      here("walk round this page", onWalk),
      to(`go to the book ${page.bookTitle}`, pages.book(page.bookId)),
      to("go to all books", pages.books()),
      to("go to the copedents", pages.copedents()),
      to("see what is kept in this browser", pages.kept()),
    ];
  }, []);
  return <ActSearch acts={acts} onClose={onClose} />;
}
