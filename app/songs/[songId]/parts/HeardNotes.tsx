"use client";

import { memo } from "react";
import { type DrawnStretch, drawnPx, drawnWidthPx } from "@/lib/client/axis/timeAxis";
import { isOfRecord, type ListedNote } from "@/lib/client/song/heardList";
import type { TracedNote } from "@/lib/client/song/noteTrace";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import type { Midi } from "@/lib/units/quantities";
import { noteNumber } from "./changeWords";
import { useDesk } from "./DeskContext";
import { numbered, tracePath } from "./noteLayout";
import styles from "./notes.module.css";
import type { SongHomes } from "./selection";
import traces from "./traces.module.css";

/** Notes that have less room than this each have no numbers. */
const CROWDED_PX = 5;

/**
 * The notes that are drawn now, each as the way of its pitch: dashed in pencil and solid in ink, the band's faint
 * beneath, those a little darker that a person gave to it, and numbers of home where they fit. Four paths hold all
 * lines, so that a whole song is drawn quickly; drawn anew only when the notes or the drawn stretch change.
 */
export const HeardNotes = memo(function HeardNotes({
  notes,
  band,
  homes,
  yOf,
  drawing,
  heightPx,
}: {
  notes: readonly ShownNote[];
  band: readonly ListedNote[];
  homes: SongHomes;
  yOf: (midi: Midi) => number;
  drawing: DrawnStretch;
  heightPx: number;
}) {
  const toPx = drawnPx(drawing);
  const lines = (list: readonly TracedNote[]) => list.map((note) => tracePath(note, toPx, yOf)).join("");
  const widthPx = drawnWidthPx(drawing);
  // Where minutes are in view, numbers here and there would say nothing.
  const numbers = notes.length * CROWDED_PX > widthPx ? [] : numbered(notes, toPx, yOf);
  return (
    <svg className={`${traces.drawing} ${styles.notes}`} width={widthPx} height={heightPx} aria-hidden="true">
      <path data-notes="band" className={styles.band} d={lines(band.filter((note) => !isOfRecord(note)))} />
      <path data-notes="given" className={styles.given} d={lines(band.filter(isOfRecord))} />
      <path
        data-notes="pencil"
        className={traces.pencil}
        d={lines(notes.filter((note) => note.mark === "pencil"))}
      />
      <path data-notes="ink" className={traces.ink} d={lines(notes.filter((note) => note.mark === "ink"))} />
      {numbers.map((note) => (
        <text
          key={note.id}
          className={note.mark === "ink" ? traces.inkNumber : traces.pencilNumber}
          x={toPx(note.startSec)}
          y={yOf(note.midi) - 4}
        >
          {noteNumber(note.midi, homes, note.startSec)}
        </text>
      ))}
    </svg>
  );
});

/** Over the notes: what another person holds, and what is selected. */
export function HeardInHand({
  notes,
  selected,
  yOf,
  drawing,
  heightPx,
}: {
  notes: readonly ShownNote[];
  selected: ListedNote | null;
  yOf: (midi: Midi) => number;
  drawing: DrawnStretch;
  heightPx: number;
}) {
  const { opened } = useDesk();
  const toPx = drawnPx(drawing);
  const heldIds = new Set(opened.others.map(({ cursor }) => cursor?.recordId));
  const held = heldIds.size === 0 ? [] : notes.filter((note) => note !== selected && heldIds.has(note.id));
  if (held.length === 0 && !selected) return null;
  return (
    <svg
      className={`${traces.drawing} ${styles.notes}`}
      width={drawnWidthPx(drawing)}
      height={heightPx}
      aria-hidden="true"
    >
      {held.map((note) => (
        <path key={note.id} className={styles.other} d={tracePath(note, toPx, yOf)} />
      ))}
      {selected ? (
        <>
          <path className={styles.chosenGround} d={tracePath(selected, toPx, yOf)} />
          <path className={styles.chosen} d={tracePath(selected, toPx, yOf)} />
        </>
      ) : null}
    </svg>
  );
}
