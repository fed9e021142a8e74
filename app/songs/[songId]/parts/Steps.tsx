"use client";

import controls from "@/app/parts/controls.module.css";
import { centsText, sureText } from "@/lib/client/format/format";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { divisionWords, freeWords, gridSureWords } from "@/lib/client/song/meterWords";
import { pencilledIds } from "@/lib/client/song/pencilledIds";
import { inkBassNotes } from "@/lib/document/commands/bass";
import { inkChanges } from "@/lib/document/commands/changes";
import { inkGrid, inkTuning } from "@/lib/document/commands/whole";
import type { RecordBase } from "@/lib/document/records/records";
import { usualMeter } from "@/lib/notation/beats/meter";
import { CoverNote } from "./CoverNote";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HomeStep } from "./HomeStep";
import { NotesStep } from "./NotesStep";
import { Step, stateOf, stateOfInk } from "./Step";

/** The steps of the work, in the order a teacher gives them, each with what is so now. */
export function Steps() {
  const desk = useDesk();
  const { opened, player, mayWrite, grid, isCheckOpen, openCheck } = desk;
  const covered = desk.covered.stretches;
  const { timesThrough, loop } = usePlayerState(player);
  const { tuning, grid: gridRecord, homes, changes, bass, part } = opened.song;
  const { run } = opened.acts;
  const pencilled = pencilledIds(changes);
  const gridSure = gridRecord && gridSureWords(gridRecord);
  const pencilledBass = pencilledIds(bass);
  const inked = changes.length - pencilled.length;

  return (
    <ol className={styles.steps}>
      <Step name="Listen" state={timesThrough > 0 ? "begun" : "open"}>
        {loop
          ? `${timesThrough} ${timesThrough === 1 ? "time" : "times"} through the loop.`
          : "Select a few bars and loop them."}
      </Step>
      <Step name="Tuning and beats" state={stateOf([tuning, gridRecord])}>
        {tuning ? `Runs ${centsText(tuning.tuningCents)} of A440, ${sureWords(tuning)}. ` : ""}
        {gridRecord && grid ? (
          <>
            {Math.round(grid.tempoBpm)} bpm, {gridSure ? `in pencil, ${gridSure}` : sureWords(gridRecord)}.
            {[divisionWords(usualMeter(grid), gridRecord.division), freeWords(gridRecord, grid)].map(
              (words) => (words ? ` ${words}` : ""),
            )}
          </>
        ) : (
          "Not heard yet."
        )}
        <div className={styles.stepActs}>
          {mayWrite && tuning?.mark === "pencil" ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => run((ctx) => inkTuning(ctx, tuning.id))}
            >
              Ink tuning
            </button>
          ) : null}
          {mayWrite && gridRecord?.mark === "pencil" ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => run((ctx) => inkGrid(ctx, gridRecord.id))}
            >
              Ink beats
            </button>
          ) : null}
        </div>
      </Step>
      <Step name="Find home" state={stateOf([homes[0] ?? null])}>
        <HomeStep />
      </Step>
      <Step name="Changes" state={stateOfInk(inked, changes.length)}>
        {changes.length === 0
          ? covered.changes.length > 0
            ? ""
            : "None yet."
          : `${inked} of ${changes.length} in ink.`}
        <CoverNote lane="changes" within={null} />
        {bass.length > 0 ? ` Of the bass line ${bass.length - pencilledBass.length} of ${bass.length}.` : ""}
        <div className={styles.stepActs}>
          {mayWrite && pencilled.length > 0 ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => run((ctx) => inkChanges(ctx, pencilled))}
            >
              Ink all {pencilled.length}
            </button>
          ) : null}
          {mayWrite && pencilledBass.length > 0 ? (
            <button
              type="button"
              className={controls.button}
              onClick={() => run((ctx) => inkBassNotes(ctx, pencilledBass))}
            >
              Ink the bass
            </button>
          ) : null}
        </div>
      </Step>
      <NotesStep />
      <Step name="Part" state={part.length > 0 ? "begun" : "open"}>
        <CoverNote lane="places" within={null} />
        {part.length === 0 && covered.places.length > 0
          ? ""
          : part.length === 0
            ? "Click a string in the part and type a fret."
            : `${part.length} ${part.length === 1 ? "event" : "events"} written.`}
        {part.length > 0 ? (
          <div className={styles.stepActs}>
            <button
              type="button"
              className={controls.button}
              aria-expanded={isCheckOpen}
              onClick={() => openCheck(!isCheckOpen)}
            >
              Check it against the record
            </button>
          </div>
        ) : null}
      </Step>
    </ol>
  );
}

function sureWords(record: RecordBase): string {
  if (record.mark === "ink") return "in ink";
  return record.confidence === null ? "in pencil" : `in pencil, ${sureText(record.confidence)}`;
}
