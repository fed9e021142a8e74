"use client";

import { printed } from "@/lib/client/format/format";
import type { ShownBassNote } from "@/lib/document/read/SongSnapshot";
import { midiToDegree } from "@/lib/theory/scaleDegree";
import type { Midi, Seconds } from "@/lib/units/quantities";
import styles from "./bass.module.css";
import { BASS_PX } from "./bassLayout";
import { useDesk } from "./DeskContext";
import { keyAt } from "./selection";
import traces from "./traces.module.css";

/** A number needs this much room until the next note. */
const NUMBER_PX = 13;

/**
 * The notes that are drawn now: how long each lasts, dashed in pencil and solid in ink, and its number where it
 * fits. Two paths hold all lines, so that a whole song is drawn as quickly as a few bars.
 */
export function BassNotes({
  notes,
  yOf,
  selected,
  toPx,
  widthPx,
}: {
  notes: readonly ShownBassNote[];
  yOf: (midi: Midi) => number;
  selected: ShownBassNote | null;
  toPx: (timeSec: Seconds) => number;
  widthPx: number;
}) {
  const { opened } = useDesk();
  const line = ({ startSec, endSec, midi }: ShownBassNote) => {
    const from = toPx(startSec);
    return `M${from} ${yOf(midi)}H${Math.max(from + 1, toPx(endSec) - 2)}`;
  };
  const lines = (mark: "pencil" | "ink") =>
    notes
      .filter((note) => note.mark === mark)
      .map(line)
      .join("");
  const held = notes.filter(
    (note) => note !== selected && opened.others.some(({ cursor }) => cursor?.recordId === note.id),
  );
  return (
    <svg className={traces.drawing} width={widthPx} height={BASS_PX} aria-hidden="true">
      <path className={traces.pencil} d={lines("pencil")} />
      <path className={traces.ink} d={lines("ink")} />
      {notes.map((note, index) => {
        const x = toPx(note.startSec);
        const next = notes[index + 1];
        if (next && toPx(next.startSec) - x < NUMBER_PX) return null;
        return (
          <text
            key={`${note.id}.${note.stretch}`}
            className={note.mark === "ink" ? traces.inkNumber : traces.pencilNumber}
            x={x}
            y={yOf(note.midi) - 4}
          >
            {printed(midiToDegree(note.midi, keyAt(opened.song, note.startSec)))}
          </text>
        );
      })}
      {[...held, ...(selected ? [selected] : [])].map((note) => (
        <rect
          key={`${note.id}.${note.stretch}`}
          className={note === selected ? styles.frame : styles.frameOther}
          x={toPx(note.startSec) - 4}
          y={yOf(note.midi) - 16}
          width={Math.max(16, toPx(note.endSec) - toPx(note.startSec) + 6)}
          height="22"
          rx="4"
        />
      ))}
    </svg>
  );
}
