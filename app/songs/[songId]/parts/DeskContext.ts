import { createContext, useContext } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { SongGrid } from "@/lib/client/axis/songGrid";
import type { Player } from "@/lib/client/player/Player";
import type { OpenedSong } from "@/lib/client/song/useSong";
import type { SongPage } from "@/lib/contracts/books";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Selection } from "./selection";

/** What every part of the song page stands on. */
export interface Desk {
  page: SongPage;
  opened: OpenedSong;
  axis: AxisStore;
  player: Player;
  copedent: Copedent;
  /** Null before the beats are known. */
  grid: SongGrid | null;
  mayWrite: boolean;
  selection: Selection;
  select(selection: Selection): void;
  /** The text in a change's field while it is being typed; null while none is open. */
  typing: string | null;
  setTyping(text: string | null): void;
  /** Says something in the line above the transport, and to screen readers; null takes it away. */
  say(words: string | null): void;
  /** Name of a person of the book, "the machine", or "someone who left". */
  nameOf(userId: string): string;
}

export const DeskContext = createContext<Desk | null>(null);

export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("This part stands outside the song page.");
  return desk;
}
