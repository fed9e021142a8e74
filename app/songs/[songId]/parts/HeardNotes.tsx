"use client";

import { printed } from "@/lib/client/format/format";
import { isOfRecord, type ListedNote } from "@/lib/client/song/heardList";
import type { TracedNote } from "@/lib/client/song/noteTrace";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import { midiToDegree } from "@/lib/theory/scaleDegree";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { useDesk } from "./DeskContext";
import { numbered, tracePath } from "./noteLayout";
import styles from "./notes.module.css";
import { keyAt } from "./selection";
import traces from "./traces.module.css";

/**
 * The notes that are drawn now, each as the way of its pitch: dashed in pencil and solid in ink, the band's faint
 * beneath, those a little darker that a person gave to it, and numbers of home where they fit. Four paths hold all
 * lines, so that a whole song is drawn quickly.
 */
export function HeardNotes({
  notes,
  band,
  yOf,
  selected,
  toPx,
  widthPx,
  heightPx,
}: {
  notes: readonly ShownNote[];
  band: readonly ListedNote[];
  yOf: (midi: Midi) => number;
  selected: ListedNote | null;
  toPx: (timeSec: Seconds) => number;
  widthPx: number;
  heightPx: number;
}) {
  const { opened } = useDesk();
  const lines = (list: readonly TracedNote[]) => list.map((note) => tracePath(note, toPx, yOf)).join("");
  const held = notes.filter(
    (note) => note !== selected && opened.others.some(({ cursor }) => cursor?.recordId === note.id),
  );
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
      {numbered(notes, toPx, yOf).map((note) => (
        <text
          key={note.id}
          className={note.mark === "ink" ? traces.inkNumber : traces.pencilNumber}
          x={toPx(note.startSec)}
          y={yOf(note.midi) - 4}
        >
          {printed(midiToDegree(note.midi, keyAt(opened.song, note.startSec)))}
        </text>
      ))}
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
