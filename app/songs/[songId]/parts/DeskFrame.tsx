"use client";

import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import controls from "@/app/parts/controls.module.css";
import { useSearchKey } from "@/app/parts/useSearchKey";
import { whenIdle } from "@/lib/client/page/whenIdle";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { openQuestions } from "@/lib/client/questions/openQuestions";
import { askPanel, useAsking } from "./askPanel";
import { Bench } from "./Bench";
import { useDesk } from "./DeskContext";
import { Details } from "./Details";
import styles from "./desk.module.css";
import { HearIt } from "./HearIt";
import { HearingBar } from "./HearingBar";
import { Lanes } from "./Lanes";
import {
  CheckPanel,
  DeskSearch,
  EventsBar,
  fetchLaterParts,
  GuessPanel,
  GuitarBar,
  GuitarSheet,
  InHand,
  KeysDialog,
  NotesTable,
  PartsSheet,
  PedalsSheet,
  Questions,
  TabDialog,
  TakeBar,
  Walk,
} from "./laterParts";
import { OfflineBar } from "./OfflineBar";
import { PassageColumn } from "./PassageColumn";
import { RunBar } from "./RunBar";
import { SongHeader } from "./SongHeader";
import { SongStrip } from "./SongStrip";
import { Transport } from "./Transport";
import { useDeskKeys } from "./useDeskKeys";
import { usePartClipboard } from "./usePartClipboard";
import { usePlayedIn } from "./usePlayedIn";
import { usePresenceSend } from "./usePresenceSend";
import { useTakeRecorder } from "./useTakeRecorder";
import { useWalk } from "./useWalk";

/** Columns that fold into sheets where there is no room for them. */
const FOLDED = [
  { name: "passage", label: "Steps" },
  { name: "selected", label: "Selected" },
  { name: "questions", label: "Questions" },
  { name: "bench", label: "Where it lies" },
  { name: "hear", label: "Hear it" },
] as const;
/** What is seen later is fetched once the page has had this long for itself. */
const LATER_AFTER_MS = 2_000;
type Folded = (typeof FOLDED)[number]["name"];

/** Where everything on the song page stands. */
export function DeskFrame({ word }: { word: string | null }) {
  const desk = useDesk();
  const [dialog, setDialog] = useState<"keys" | "search" | "tab" | null>(null);
  const walk = useWalk(desk.page.me.id);
  const isWalked = useSyncExternalStore(walk.watch, walk.now, walk.now).at !== null;
  const [opened, setSheet] = useState<Folded | null>(null);
  const { fault } = usePlayerState(desk.player);
  const { onBench, laidOut, isTableOpen, isCheckOpen, isNaming } = desk;
  // Who is led into the bench's field sees it at once; it stays when the field is left for one of the places.
  const sheet = isNaming ? "bench" : opened;
  useEffect(() => {
    if (isNaming) setSheet("bench");
  }, [isNaming]);
  const wasHanded = useRef(false);
  useEffect(() => {
    // On a narrow screen the bench is folded away: it comes up for what is handed to it, and goes when that is placed.
    const isHanded = onBench.notes.length > 0 || laidOut !== null;
    if (isHanded) setSheet("bench");
    else if (wasHanded.current && onBench.text === "") setSheet(null);
    wasHanded.current = isHanded;
  }, [onBench, laidOut]);
  // A guess is made with the lanes in view.
  const isGuessing = desk.guessing !== null;
  useEffect(() => {
    if (isGuessing) setSheet(null);
  }, [isGuessing]);
  // It comes up anew each time something is asked, also where it was put away over what was begun.
  const { writing } = useAsking();
  useEffect(() => {
    if (writing !== null) setSheet("questions");
  }, [writing]);
  useEffect(() => () => askPanel.leave(null), []);
  useEffect(() => whenIdle(fetchLaterParts, LATER_AFTER_MS), []);
  // The name of a passage is written among what is selected, which is folded away on a narrow screen.
  const isNamingStudy = desk.typing !== null && desk.selection?.kind === "study";
  useEffect(() => {
    if (isNamingStudy) setSheet("selected");
  }, [isNamingStudy]);
  const isRecording = useTakeRecorder(desk).step !== "off";
  // What is recorded is played with the lanes in view.
  useEffect(() => {
    if (isRecording) setSheet(null);
  }, [isRecording]);
  const { shownOn, read, moving } = desk.guitar;
  const isGuitarTold = shownOn !== null || read.flags.size > 0 || moving !== null;
  useDeskKeys(desk, () => setDialog("keys"));
  useSearchKey(() => setDialog("search"));
  usePresenceSend(desk);
  usePartClipboard(desk);
  usePlayedIn(desk);
  const { questions } = desk.opened.song;
  const open = openQuestions(questions).length;
  const isRightUp = sheet === "selected" || sheet === "questions";
  const raised = (isUp: boolean) => (isUp ? styles.raised : "");
  return (
    <div className={styles.desk}>
      <SongHeader onSearch={() => setDialog("search")} />
      <SongStrip />
      <div className={styles.body}>
        <div className={`${styles.left} ${raised(sheet === "passage")}`}>
          <PassageColumn />
        </div>
        <div className={styles.middle}>
          <OfflineBar />
          <HearingBar />
          {isWalked && desk.opened.song.changes.length > 0 ? <Walk walk={walk} /> : null}
          {isGuitarTold ? <GuitarBar /> : null}
          <Lanes />
          {desk.selection?.kind === "events" ? <EventsBar /> : null}
          <RunBar />
          {isRecording ? <TakeBar /> : null}
          <p className={styles.word} role="status" aria-live="polite">
            {word ?? fault ?? (desk.opened.loaded ? "" : "Fetching the song")}
          </p>
        </div>
        <div className={`${styles.right} ${raised(isRightUp)}`} data-sheet={sheet}>
          {isRightUp || writing !== null || questions.length > 0 ? <Questions /> : null}
          <Details />
        </div>
      </div>
      {isTableOpen ? <NotesTable /> : null}
      {isCheckOpen ? <CheckPanel isCovered={sheet !== null} /> : null}
      {desk.guessing ? <GuessPanel guessing={desk.guessing} /> : null}
      {desk.selection !== null && sheet === null && !isRecording ? <InHand /> : null}
      <div className={styles.lower}>
        <div className={`${styles.below} ${raised(sheet === "bench")}`}>
          <Bench />
        </div>
        <div className={`${styles.hear} ${raised(sheet === "hear")}`}>
          <HearIt />
        </div>
      </div>
      <Transport
        folds={
          <nav className={styles.folds} aria-label="Sheets">
            {FOLDED.map(({ name, label }) => (
              <button
                key={name}
                type="button"
                className={`${controls.button} ${styles[`fold-${name}`]}`}
                aria-expanded={sheet === name}
                onClick={() => setSheet(sheet === name ? null : name)}
              >
                {label}
                {name === "questions" && open > 0 ? ` (${open})` : null}
              </button>
            ))}
          </nav>
        }
        onTab={() => setDialog("tab")}
        onKeys={() => setDialog("keys")}
      />
      {dialog === "keys" ? <KeysDialog onClose={() => setDialog(null)} /> : null}
      {dialog === "search" ? (
        <DeskSearch onClose={() => setDialog(null)} onTab={() => setDialog("tab")} onWalk={walk.again} />
      ) : null}
      {desk.guitar.isSheetOpen ? <GuitarSheet onClose={() => desk.guitar.openSheet(false)} /> : null}
      {desk.parts.isSheetOpen ? <PartsSheet onClose={() => desk.parts.openSheet(false)} /> : null}
      {desk.isEngaging && desk.selection?.kind === "caret" ? (
        <PedalsSheet caret={desk.selection.caret} onClose={() => desk.setEngaging(false)} />
      ) : null}
      {dialog === "tab" ? <TabDialog onClose={() => setDialog(null)} /> : null}
    </div>
  );
}
