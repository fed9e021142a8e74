"use client";

import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { AxisStore } from "@/lib/client/axis/AxisStore";
import { SnapStore } from "@/lib/client/axis/SnapStore";
import { makeSongGrid } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { TapSession } from "@/lib/client/beats/TapSession";
import { useNoteEntry } from "@/lib/client/entry/useNoteEntry";
import { useSongFit } from "@/lib/client/fit/useFit";
import { usePassageHearer } from "@/lib/client/hearing/passage/usePassageHearer";
import { type BandNotes, useBandNotes } from "@/lib/client/hearing/useBandNotes";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import type { Player } from "@/lib/client/player/Player";
import { NoteSounder } from "@/lib/client/player/soundNotes";
import { usePlayer } from "@/lib/client/player/usePlayer";
import { usePractice } from "@/lib/client/practice/usePractice";
import { PeaksProvider } from "@/lib/client/record/PeaksContext";
import { inTime } from "@/lib/client/song/heardList";
import { partName, partOf, withPartAtHand } from "@/lib/client/song/partAtHand";
import { othersSeen } from "@/lib/client/song/presence";
import { type OpenedSong, useSong } from "@/lib/client/song/useSong";
import { PlaceTrial } from "@/lib/client/sound/PlaceTrial";
import { partsBeside } from "@/lib/client/sound/partsBeside";
import { useSteel } from "@/lib/client/sound/useSteel";
import { useTakes } from "@/lib/client/takes/useTakes";
import type { HearingStatus, SongPage } from "@/lib/contracts/books";
import { WRITING_ROLES } from "@/lib/contracts/roles";
import { coverSong } from "@/lib/document/read/coverSong";
import { MACHINE } from "@/lib/document/records/Stamp";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { type Desk, DeskContext, type Guessing, type LaidOut, type OnBench } from "./DeskContext";
import { DeskFrame } from "./DeskFrame";
import { guessActs } from "./guessActs";
import { beginningAt } from "./guessPlaces";
import { SongSkeleton } from "./SongSkeleton";
import { homeAt, type Selection, selectedSpan } from "./selection";
import { afterTake } from "./takeRecorded";
import { useGuitar } from "./useGuitar";
import { useKeptParts } from "./useParts";

/** How long a word about a refused act stands. */
const WORD_STANDS_MS = 8000;

/** The song page, once it is in the browser: opens the shared song and the player, then lays out the desk. */
export function SongDesk({ page }: { page: SongPage }) {
  const [word, setWord] = useState<string | null>(null);
  const mayWrite = WRITING_ROLES.includes(page.role);
  const { id: userId, name } = page.me;
  const isStudent = page.role === "student";
  const opened = useSong({ songId: page.id, userId, name, mayWrite, isStudent }, setWord);
  const player = usePlayer(page.recordUrl, page.durationSec);
  useEffect(() => {
    if (word === null) return;
    const timer = setTimeout(() => setWord(null), WORD_STANDS_MS);
    return () => clearTimeout(timer);
  }, [word]);
  if (!opened || !player) return <SongSkeleton words={`Opening ${page.title}`} />;
  return <OpenDesk page={page} opened={opened} player={player} word={word} say={setWord} />;
}

/** Changes whenever the machine goes on to something else. */
function stageOf(hearing: HearingStatus | null): string {
  return hearing ? `${hearing.runId} ${hearing.state} ${hearing.step}` : "";
}

/** Whether a note lies under a cover, or reaches there. */
function isUnder(covered: readonly HeardStretch[], note: HeardStretch): boolean {
  return covered.some(({ startSec, endSec }) => note.endSec > startSec && note.startSec < endSec);
}

/** The band's notes but for those that are covered. */
function bandSeen(band: BandNotes["shown"], covered: readonly HeardStretch[]): BandNotes["shown"] {
  if (covered.length === 0 || band === null) return band;
  return band.filter((note) => !isUnder(covered, note));
}

function OpenDesk({
  page,
  opened: openedAsWritten,
  player,
  word,
  say,
}: {
  page: SongPage;
  opened: OpenedSong;
  player: Player;
  word: string | null;
  say: (words: string | null) => void;
}) {
  const [axis] = useState(() => new AxisStore(page.durationSec));
  const [snap] = useState(() => new SnapStore());
  const [selected, setSelection] = useState<Selection>(null);
  const [typing, setTyping] = useState<string | null>(null);
  const [run, setRun] = useState<Desk["run"]>(null);
  const [triedChord, setTriedChord] = useState<string | null>(null);
  const [onBench, setOnBench] = useState<OnBench>({ text: "", notes: [] });
  const [isNaming, setNaming] = useState(false);
  const [isEngaging, setEngaging] = useState(false);
  const [laidOut, layOut] = useState<LaidOut | null>(null);
  const [isTableOpen, openTable] = useState(false);
  const [isCheckOpen, openCheck] = useState(false);
  const [sounder] = useState(() => new NoteSounder());
  useEffect(() => sounder.close, [sounder]);
  // The finder outlives the page; what was asked of it for this song does not.
  useEffect(() => () => placeFinder().end(), []);
  const latest = useRef<Desk>(null);
  const atHand = usePractice(
    { songId: page.id, userId: page.me.id },
    { player, acts: openedAsWritten.acts, studies: openedAsWritten.song.studies },
  );
  const entry = useNoteEntry();
  const [guessing, setGuessing] = useState<Guessing | null>(null);
  const { shown: partsShown, ...keptParts } = useKeptParts(page.me.id, page.id);
  // Everything below this line is about the part in hand.
  const whole = useMemo(
    () => withPartAtHand(openedAsWritten.song, partsShown.atHand),
    [openedAsWritten.song, partsShown.atHand],
  );
  // Everything below this line knows nothing of what is covered.
  const covered = useMemo(
    () => coverSong(whole, { id: page.me.id, isStudent: page.role === "student" }),
    [whole, page.me.id, page.role],
  );
  const written = covered.song;
  // A note of the band stands in no song: one that was selected before it was covered would still be told of.
  const isHidden = selected?.kind === "band" && isUnder(covered.stretches.heard, selected.note);
  const selection = isHidden ? null : selected;
  const partAtHand = partOf(written.parts, partsShown.atHand);
  const guitar = useGuitar(written, partAtHand.id);
  const { read, shownOn, copedent } = guitar;
  const song = useMemo(() => ({ ...written, part: read.part }), [written, read]);
  const opened = useMemo(() => {
    const others = othersSeen(openedAsWritten.others, covered);
    return { ...openedAsWritten, song, others };
  }, [openedAsWritten, song, covered]);
  const heardBand = useBandNotes(page.id, song);
  const shownBand = useMemo(
    () => bandSeen(heardBand.shown, covered.stretches.heard),
    [heardBand.shown, covered],
  );
  const band = { ...heardBand, shown: shownBand };
  const heardList = useMemo(
    () => (band.isWanted ? inTime(inTime(song.notes, song.bandNotes), band.shown ?? []) : song.notes),
    [band.isWanted, band.shown, song.notes, song.bandNotes],
  );
  const grid = useMemo(() => makeSongGrid(song.grid, page.durationSec), [song.grid, page.durationSec]);
  const mayWrite = WRITING_ROLES.includes(page.role) && song.readOnlyBecause === null;
  const hearer = usePassageHearer(page.id, mayWrite);
  const fit = useSongFit(page.id, song.tuning?.tuningCents ?? null);
  const [trial] = useState(() => new PlaceTrial());
  const [taps] = useState(() => new TapSession());
  const tonicAt = useCallback((timeSec: number) => homeAt(song, timeSec)?.tonic ?? null, [song]);
  const playable = useMemo(() => song.part.filter(({ id }) => !read.flags.has(id)), [song.part, read]);
  const beside = useMemo(
    () => partsBeside(written.parts, partAtHand.id, partsShown),
    [written.parts, partAtHand.id, partsShown],
  );
  const level = partsShown.levels[partAtHand.id] ?? 1;
  const played = { id: partAtHand.id, events: playable, copedent, level };
  const steel = useSteel(player, { song, atHand: played, beside, grid, tonicAt, trial });

  const takes = useTakes(
    { songId: page.id, userId: page.me.id, name: page.me.name },
    player,
    opened.connection,
    {
      say,
      recorded: (take) => {
        if (latest.current) void afterTake(latest.current, take);
      },
    },
  );

  const select = useCallback(
    (next: Selection) => {
      setSelection(next);
      setTyping(null);
      setTriedChord(null);
      layOut(null);
      say(null);
      const span = next?.kind === "span" ? null : selectedSpan(song, next, null);
      if (span) axis.change((now) => keepInView(keepInView(now, span.endSec, 8), span.startSec, 48));
    },
    [axis, song, say],
  );

  const nameOf = useCallback(
    (userId: string) => {
      if (userId === MACHINE) return "the machine";
      if (userId === page.me.id) return "you";
      return page.members.find((member) => member.userId === userId)?.name ?? "someone who left";
    },
    [page],
  );

  const desk: Desk = {
    now: () => latest.current ?? desk,
    page,
    opened,
    axis,
    snap,
    player,
    written,
    whole,
    covered,
    guessing,
    setGuessing,
    parts: {
      ...keptParts,
      list: written.parts,
      atHand: partAtHand,
      areSeveral: written.parts.length > 1,
      nameOf: (id = partAtHand.id) => partName(written.parts, id),
    },
    guitar,
    copedent,
    grid,
    mayWrite,
    mayWritePart: mayWrite && shownOn === null,
    writePart(command, beginningsSec = []) {
      const { selection } = desk;
      const caretSec = selection?.kind === "caret" ? [selection.caret.timeSec] : [];
      if (guessActs(desk).keepsFrom("places", [...caretSec, ...beginningsSec].map(beginningAt))) return null;
      if (shownOn === null) return opened.acts.run(command);
      say(
        `You see the part on ${shownOn.copedent.name}, so nothing was written. Go back to its own guitar, or carry the part over.`,
      );
      return null;
    },
    atHand,
    selection,
    select,
    typing,
    setTyping,
    run,
    setRun,
    triedChord,
    setTriedChord,
    sounder,
    steel,
    trial,
    taps,
    entry,
    band,
    takes,
    hearer,
    fit,
    isCheckOpen,
    openCheck,
    heardList,
    laidOut,
    layOut,
    isTableOpen,
    openTable,
    onBench,
    nameOnBench: (text) => setOnBench({ text, notes: [] }),
    handToBench({ text, startSec, notes }) {
      select({ kind: "caret", caret: { string: copedent.strings[0]?.number ?? 1, timeSec: startSec } });
      setOnBench({ text, notes });
      say("Choose where they lie; the place is then written into the part.");
    },
    isNaming,
    setNaming,
    isEngaging,
    setEngaging,
    say,
    nameOf,
  };
  latest.current = desk;
  return (
    <DeskContext value={desk}>
      <PeaksProvider url={page.peaksUrl} stage={stageOf(opened.hearing ?? page.hearing)}>
        <DeskFrame word={word} />
      </PeaksProvider>
    </DeskContext>
  );
}
