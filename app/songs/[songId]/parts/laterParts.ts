import { lazy } from "react";

/**
 * What of the song page is only seen when it is asked for: fetched apart from the page, so that the page can be used sooner,
 * and then while nothing else is done, so that it is there when it is wanted and when the line is gone.
 */
const PARTS = {
  check: () => import("./CheckPanel").then(({ CheckPanel }) => ({ default: CheckPanel })),
  search: () => import("./DeskSearch").then(({ DeskSearch }) => ({ default: DeskSearch })),
  guess: () => import("./GuessPanel").then(({ GuessPanel }) => ({ default: GuessPanel })),
  guitar: () => import("./GuitarSheet").then(({ GuitarSheet }) => ({ default: GuitarSheet })),
  keys: () => import("./KeysDialog").then(({ KeysDialog }) => ({ default: KeysDialog })),
  listening: () => import("./Listening").then(({ Listening }) => ({ default: Listening })),
  notes: () => import("./NotesTable").then(({ NotesTable }) => ({ default: NotesTable })),
  pedals: () => import("./PedalsSheet").then(({ PedalsSheet }) => ({ default: PedalsSheet })),
  tab: () => import("./TabDialog").then(({ TabDialog }) => ({ default: TabDialog })),
};

export const CheckPanel = lazy(PARTS.check);
export const DeskSearch = lazy(PARTS.search);
export const GuessPanel = lazy(PARTS.guess);
export const GuitarSheet = lazy(PARTS.guitar);
export const KeysDialog = lazy(PARTS.keys);
export const Listening = lazy(PARTS.listening);
export const NotesTable = lazy(PARTS.notes);
export const PedalsSheet = lazy(PARTS.pedals);
export const TabDialog = lazy(PARTS.tab);

/** Fetches them all ahead of time; what does not come is fetched when it is wanted. */
export function fetchLaterParts(): void {
  const all: (() => Promise<unknown>)[] = Object.values(PARTS);
  for (const fetchPart of all) fetchPart().catch(() => undefined);
}
