"use client";

import controls from "@/app/parts/controls.module.css";
import { movedWords } from "@/lib/client/song/sectionWords";
import { setSectionMove } from "@/lib/document/commands/sections";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";

/** By how many half steps a section can be moved, lowest first. */
export const MOVES = Array.from({ length: 12 }, (_, index) => index - 5);

/** How far a section lies from the first of its name. */
export function MoveField({ section }: { section: ShownSection }) {
  const { run } = useDesk().opened.acts;
  return (
    <label className={controls.field}>
      Moved against the first of its name
      <select
        className={controls.input}
        value={section.transposedSemitones}
        onChange={(event) => run((ctx) => setSectionMove(ctx, section.id, Number(event.target.value)))}
      >
        {MOVES.map((each) => (
          <option key={each} value={each}>
            {movedWords(each) || "not at all"}
          </option>
        ))}
      </select>
    </label>
  );
}
