import { createContext, useContext } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { SongGrid } from "@/lib/client/axis/songGrid";
import type { BandNotes } from "@/lib/client/hearing/useBandNotes";
import type { Player } from "@/lib/client/player/Player";
import type { NoteSounder } from "@/lib/client/player/soundNotes";
import type { OpenedSong } from "@/lib/client/song/useSong";
import type { SongPage } from "@/lib/contracts/books";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Seconds } from "@/lib/units/quantities";
import type { Selection } from "./selection";

/** Notes that the bench is to place, by their names. */
export interface OnBench {
  text: string;
  /** When they end on the record; null where they were typed. */
  endSec: Seconds | null;
}

/** What every part of the song page stands on. */
export interface Desk {
  page: SongPage;
  opened: OpenedSong;
  axis: AxisStore;
  player: Player;
  /** Plays notes alone. */
  sounder: NoteSounder;
  band: BandNotes;
  copedent: Copedent;
  /** Null before the beats are known. */
  grid: SongGrid | null;
  mayWrite: boolean;
  selection: Selection;
  select(selection: Selection): void;
  /** The text in a change's field while it is being typed; null while none is open. */
  typing: string | null;
  setTyping(text: string | null): void;
  onBench: OnBench;
  nameOnBench(text: string): void;
  /** Puts the caret where the notes begin, names them on the bench and brings it into view. */
  handToBench(notes: { text: string; startSec: Seconds; endSec: Seconds }): void;
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
