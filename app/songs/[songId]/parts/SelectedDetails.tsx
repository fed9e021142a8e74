"use client";

import { BandNoteDetails } from "./BandNoteDetails";
import { BassDetails } from "./BassDetails";
import { BeatDetails } from "./BeatDetails";
import { ChangeDetails } from "./ChangeDetails";
import { useDesk } from "./DeskContext";
import { EventDetails } from "./EventDetails";
import { EventsDetails } from "./EventsDetails";
import { HomeDetails } from "./HomeDetails";
import { NoteDetails } from "./NoteDetails";
import { QuestionDetails } from "./QuestionDetails";
import { SectionDetails } from "./SectionDetails";
import { SpanDetails } from "./SpanDetails";
import { StudyDetails } from "./StudyDetails";
import { selectedRecords } from "./selection";
import { TakeDetails } from "./TakeDetails";

/** What is selected, who wrote it and when, and what can be done with it; nothing where it is there no more. */
export function SelectedDetails() {
  const { opened, selection } = useDesk();
  const { change, note, heard, section, home, study, question } = selectedRecords(opened.song, selection);
  return (
    <>
      {change ? <ChangeDetails change={change} /> : null}
      {note ? <BassDetails note={note} /> : null}
      {heard ? <NoteDetails note={heard} /> : null}
      {selection?.kind === "band" ? <BandNoteDetails note={selection.note} /> : null}
      {section ? <SectionDetails section={section} /> : null}
      {home ? <HomeDetails home={home} /> : null}
      {study ? <StudyDetails study={study} /> : null}
      {question ? <QuestionDetails question={question} /> : null}
      {selection?.kind === "beat" ? <BeatDetails /> : null}
      {selection?.kind === "caret" ? <EventDetails caret={selection.caret} /> : null}
      {selection?.kind === "events" ? <EventsDetails /> : null}
      {selection?.kind === "span" ? <SpanDetails /> : null}
      {selection?.kind === "take" ? <TakeDetails id={selection.id} /> : null}
    </>
  );
}
