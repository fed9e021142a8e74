"use client";

import controls from "@/app/parts/controls.module.css";
import { pencilledIds } from "@/lib/client/song/pencilledIds";
import { inkNotes } from "@/lib/document/commands/notes";
import { CoverNote } from "./CoverNote";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { Step, stateOfInk } from "./Step";

/** How far the heard notes are settled; and the way to see the band's beside them. */
export function NotesStep() {
  const { opened, mayWrite, band, isTableOpen, openTable, covered } = useDesk();
  const { notes, bandNotes, heard, passages } = opened.song;
  const pencilled = pencilledIds(notes);
  const inked = notes.length - pencilled.length;
  return (
    <Step name="Notes" state={stateOfInk(inked, notes.length)}>
      {notes.length === 0
        ? covered.stretches.heard.length > 0
          ? ""
          : "None of the steel's heard so far."
        : `${inked} of the steel's ${notes.length} in ink.`}
      {bandNotes.length > 0 ? ` ${bandNotes.length} given to the band.` : ""}
      <CoverNote lane="heard" within={null} />
      <div className={styles.stepActs}>
        {mayWrite && pencilled.length > 0 ? (
          <button
            type="button"
            className={controls.button}
            onClick={() => opened.acts.run((ctx) => inkNotes(ctx, pencilled))}
          >
            Ink all {pencilled.length}
          </button>
        ) : null}
        {heard || passages.length > 0 ? (
          <button
            type="button"
            className={controls.button}
            aria-pressed={band.isWanted}
            onClick={band.toggle}
          >
            {band.isWanted ? "Hide the band's" : "Show the band's"}
          </button>
        ) : null}
        {notes.length > 0 || band.isWanted ? (
          <button
            type="button"
            className={controls.button}
            aria-expanded={isTableOpen}
            onClick={() => openTable(!isTableOpen)}
          >
            List them
          </button>
        ) : null}
      </div>
      {band.word ? <p role="status">{band.word}</p> : null}
    </Step>
  );
}
