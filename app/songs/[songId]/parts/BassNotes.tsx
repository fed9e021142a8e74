"use client";

import { memo } from "react";
import { type DrawnStretch, drawnPx, drawnWidthPx } from "@/lib/client/axis/timeAxis";
import { textScale } from "@/lib/client/page/textScale";
import type { ShownBassNote } from "@/lib/document/read/SongSnapshot";
import type { Midi } from "@/lib/units/quantities";
import styles from "./bass.module.css";
import { bassPx } from "./bassLayout";
import { noteNumber } from "./changeWords";
import { useDesk } from "./DeskContext";
import type { SongHomes } from "./selection";
import traces from "./traces.module.css";

/** A number needs this much room until the next note. */
const NUMBER_PX = 13;

/**
 * The notes that are drawn now: how long each lasts, dashed in pencil and solid in ink, and its number where it
 * fits. Two paths hold all lines, so that a whole song is drawn as quickly as a few bars; drawn anew only when the notes or
 * the drawn stretch change.
 */
export const BassNotes = memo(function BassNotes({
  notes,
  homes,
  yOf,
  drawing,
}: {
  notes: readonly ShownBassNote[];
  homes: SongHomes;
  yOf: (midi: Midi) => number;
  drawing: DrawnStretch;
}) {
  const toPx = drawnPx(drawing);
  const line = ({ startSec, endSec, midi }: ShownBassNote) => {
    const from = toPx(startSec);
    return `M${from} ${yOf(midi)}H${Math.max(from + 1, toPx(endSec) - 2)}`;
  };
  const lines = (mark: "pencil" | "ink") =>
    notes
      .filter((note) => note.mark === mark)
      .map(line)
      .join("");
  return (
    <svg className={traces.drawing} width={drawnWidthPx(drawing)} height={bassPx()} aria-hidden="true">
      <path className={traces.pencil} d={lines("pencil")} />
      <path className={traces.ink} d={lines("ink")} />
      {notes.map((note, index) => {
        const x = toPx(note.startSec);
        const next = notes[index + 1];
        if (next && toPx(next.startSec) - x < NUMBER_PX * textScale()) return null;
        return (
          <text
            key={`${note.id}.${note.stretch}`}
            className={note.mark === "ink" ? traces.inkNumber : traces.pencilNumber}
            x={x}
            y={yOf(note.midi) - 4}
          >
            {noteNumber(note.midi, homes, note.startSec)}
          </text>
        );
      })}
    </svg>
  );
});

/** Over the notes: frames of what another person holds, and of what is selected. */
export function BassInHand({
  notes,
  selected,
  yOf,
  drawing,
}: {
  notes: readonly ShownBassNote[];
  selected: ShownBassNote | null;
  yOf: (midi: Midi) => number;
  drawing: DrawnStretch;
}) {
  const { opened } = useDesk();
  const toPx = drawnPx(drawing);
  const heldIds = new Set(opened.others.map(({ cursor }) => cursor?.recordId));
  const held = heldIds.size === 0 ? [] : notes.filter((note) => note !== selected && heldIds.has(note.id));
  if (held.length === 0 && !selected) return null;
  return (
    <svg className={traces.drawing} width={drawnWidthPx(drawing)} height={bassPx()} aria-hidden="true">
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
