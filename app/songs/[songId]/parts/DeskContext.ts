import { createContext, useContext } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import type { SnapStore } from "@/lib/client/axis/SnapStore";
import type { SongGrid } from "@/lib/client/axis/songGrid";
import type { TapSession } from "@/lib/client/beats/TapSession";
import type { NoteEntry } from "@/lib/client/entry/NoteEntry";
import type { SongFit } from "@/lib/client/fit/useFit";
import type { PassageHearer } from "@/lib/client/hearing/passage/PassageHearer";
import type { BandNotes } from "@/lib/client/hearing/useBandNotes";
import type { Player } from "@/lib/client/player/Player";
import type { NoteSounder } from "@/lib/client/player/soundNotes";
import type { AtHand } from "@/lib/client/practice/usePractice";
import type { ListedNote } from "@/lib/client/song/heardList";
import type { PassageNote } from "@/lib/client/song/passageMoments";
import type { PassageWay } from "@/lib/client/song/placePassage";
import type { OpenedSong } from "@/lib/client/song/useSong";
import type { PlaceTrial } from "@/lib/client/sound/PlaceTrial";
import type { SteelPlayer } from "@/lib/client/sound/SteelPlayer";
import type { TakesHere } from "@/lib/client/takes/useTakes";
import type { SongPage } from "@/lib/contracts/books";
import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import type { CoveredSong } from "@/lib/document/read/coverSong";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { Seconds } from "@/lib/units/quantities";
import type { Selection } from "./selection";
import type { Guitar } from "./useGuitar";
import type { Parts } from "./useParts";

/** Notes that the bench is to place, by their names. */
export interface OnBench {
  text: string;
  /** As they were heard, with their glides; empty where they were typed. */
  notes: readonly PassageNote[];
}

/** A passage that was written into the part, with the other ways to play it. */
export interface LaidOut {
  startSec: Seconds;
  endSec: Seconds;
  ways: readonly PassageWay[];
  /** On what they lie. */
  copedent: Copedent;
  /** For each way the ids of the events it was written as, each time; undo and redo say which of them stand now. */
  ids: readonly (readonly string[])[];
  /** Notes that are in no way of them. */
  leftOutCount: number;
}

/** A guess that is being made at something covered. */
export interface Guessing extends HeardStretch {
  /** What is covered there: the id of a study, or `WHOLE_SONG`. */
  target: string;
  lane: GuessLane;
  /** As it is typed. */
  text: string;
  /** Hints that were asked for, in that order. */
  hints: readonly string[];
}

/** What every part of the song page stands on. */
export interface Desk {
  /** The desk as it stands by now, for whatever has waited since this one was drawn. */
  now(): Desk;
  page: SongPage;
  opened: OpenedSong;
  axis: AxisStore;
  /** To what times clicks, drags and steps of all lanes snap. */
  snap: SnapStore;
  player: Player;
  /** Plays notes alone. */
  sounder: NoteSounder;
  /** Plays the part beside the record, and bass, chords and a drone. */
  steel: SteelPlayer;
  /** Places that are tried by ear before one is written. */
  trial: PlaceTrial;
  /** What notes are played in by. */
  entry: NoteEntry;
  band: BandNotes;
  /** Takes of this song: recorded, kept and heard. */
  takes: TakesHere;
  /** Beats that are being tapped. */
  taps: TapSession;
  /** Hears passages at once; null until the page is whole. */
  hearer: PassageHearer | null;
  /** Holds guesses against the record; null until the page is whole. */
  fit: SongFit | null;
  /** Whether the check of the part is open. */
  isCheckOpen: boolean;
  openCheck(isOpen: boolean): void;
  /** The heard notes as one walks through them: the steel's, with the band's while these are shown. */
  heardList: readonly ListedNote[];
  /** The song as it is written; in `opened.song` its part lies as it is seen, on another guitar maybe. */
  written: SongSnapshot;
  /** The song with what is covered too: guesses are compared with it, and nothing else is shown of it. */
  whole: SongSnapshot;
  /** What is kept from this person until a guess was made. */
  covered: CoveredSong;
  guessing: Guessing | null;
  setGuessing(guessing: Guessing | null): void;
  /** All parts, and which is in hand: `part` and `head` of every song here are those of that one. */
  parts: Parts;
  /** On which guitar the part is seen. */
  guitar: Guitar;
  /** Of the guitar on which the part is seen. */
  copedent: Copedent;
  /** Null before the beats are known. */
  grid: SongGrid | null;
  mayWrite: boolean;
  /** False while the part is seen on a guitar that it is not written for. */
  mayWritePart: boolean;
  /**
   * Runs a command on the part, or says why it may not be written now.
   * @param beginningsSec where events come to begin by it, besides the caret: under a cover nothing is written unseen
   * @returns ids, or null where nothing was written
   */
  writePart(
    command: (ctx: CommandContext) => CommandResult,
    beginningsSec?: readonly Seconds[],
  ): string[] | null;
  /** The passage at hand, whatever is selected in it. */
  atHand: AtHand;
  selection: Selection;
  select(selection: Selection): void;
  /** Changes that are being typed in a run, and from which bar on; null while none are. */
  run: { text: string; fromSec: Seconds } | null;
  setRun(run: { text: string; fromSec: Seconds } | null): void;
  /** The chord that is tried in place of the selected change, not written; null where none is. */
  triedChord: string | null;
  setTriedChord(label: string | null): void;
  /** The text in a change's field while it is being typed; null while none is open. */
  typing: string | null;
  setTyping(text: string | null): void;
  onBench: OnBench;
  nameOnBench(text: string): void;
  /** Whether the way led from the lanes into the bench's field. */
  isNaming: boolean;
  setNaming(isNaming: boolean): void;
  /** Whether the list of pedals and levers for the event at the caret is open. */
  isEngaging: boolean;
  setEngaging(isEngaging: boolean): void;
  /** Puts the caret where the notes begin, names them on the bench and brings it into view. */
  handToBench(notes: { text: string; startSec: Seconds; notes: readonly PassageNote[] }): void;
  /** The passage on the bench; null where single notes are placed. Selecting something else takes it off. */
  laidOut: LaidOut | null;
  layOut(passage: LaidOut | null): void;
  /** Whether the table of heard notes is open. */
  isTableOpen: boolean;
  openTable(isOpen: boolean): void;
  /** Says something over the foot of the lanes, and to screen readers; null takes it away. */
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
