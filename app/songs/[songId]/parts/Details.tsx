"use client";

import { BandNoteDetails } from "./BandNoteDetails";
import { BassDetails } from "./BassDetails";
import { BeatDetails } from "./BeatDetails";
import { ChangeDetails } from "./ChangeDetails";
import { ChangeList } from "./ChangeList";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { EventDetails } from "./EventDetails";
import { EventsDetails } from "./EventsDetails";
import { HearHere } from "./HearHere";
import { HomeDetails } from "./HomeDetails";
import { NoteDetails } from "./NoteDetails";
import { RubbedOut } from "./RubbedOut";
import { SectionDetails } from "./SectionDetails";
import { SectionList } from "./SectionList";
import { SpanDetails } from "./SpanDetails";
import { StudyDetails } from "./StudyDetails";
import {
  selectedChange,
  selectedHeard,
  selectedHome,
  selectedNote,
  selectedSection,
  selectedStudy,
} from "./selection";

/** Right: what is selected, who wrote it and when, and what can be done with it. */
export function Details() {
  const { opened, selection } = useDesk();
  const { song } = opened;
  const change = selectedChange(song, selection);
  const note = selectedNote(song, selection);
  const heard = selectedHeard(song, selection);
  const section = selectedSection(song, selection);
  const home = selectedHome(song, selection);
  const study = selectedStudy(song, selection);
  const isNothing =
    !(change || note || heard || section || home || study) &&
    selection?.kind !== "caret" &&
    selection?.kind !== "events" &&
    selection?.kind !== "beat" &&
    selection?.kind !== "span" &&
    selection?.kind !== "band";
  return (
    <section className={`${styles.column} ${styles.right}`} aria-label="Selected">
      {change ? <ChangeDetails change={change} /> : null}
      {note ? <BassDetails note={note} /> : null}
      {heard ? <NoteDetails note={heard} /> : null}
      {selection?.kind === "band" ? <BandNoteDetails note={selection.note} /> : null}
      {section ? <SectionDetails section={section} /> : null}
      {home ? <HomeDetails home={home} /> : null}
      {study ? <StudyDetails study={study} /> : null}
      {selection?.kind === "beat" ? <BeatDetails /> : null}
      {selection?.kind === "caret" ? <EventDetails caret={selection.caret} /> : null}
      {selection?.kind === "events" ? <EventsDetails /> : null}
      {selection?.kind === "span" ? <SpanDetails /> : null}
      {isNothing ? (
        <>
          <h2>Nothing selected</h2>
          <p className={styles.marks}>
            Click a change or a note to ink or change it, a section to hear that passage, a string in the part
            to write, or drag over the record to select a few bars.
          </p>
        </>
      ) : null}
      {selection?.kind === "span" ? null : <HearHere />}
      <SectionList />
      <ChangeList />
      <RubbedOut />
    </section>
  );
}
