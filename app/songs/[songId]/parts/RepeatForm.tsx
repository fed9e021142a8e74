"use client";

import { type FormEvent, useMemo, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { movedBetween, repeatSection } from "@/lib/client/song/repeatSection";
import { barsWords, movedWords, sectionName } from "@/lib/client/song/sectionWords";
import { copyStretches } from "@/lib/document/commands/runs";
import type { ShownSection } from "@/lib/document/read/SongSnapshot";
import beats from "./beats.module.css";
import { useDesk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { MOVES } from "./MoveField";
import styles from "./repeat.module.css";
import { keyAt, numberKeyAt } from "./selection";

/** Writes a section as another has it: changes and bass, bar by bar, moved where it is moved. */
export function RepeatForm({ section }: { section: ShownSection }) {
  const desk = useDesk();
  const { opened, grid, say } = desk;
  const { song } = opened;
  const others = song.sections.filter((each) => each.id !== section.id || each.stretch !== section.stretch);
  const keyOf = (each: ShownSection) => `${each.id}.${each.stretch}`;
  const first = others.find(({ label }) => label === section.label) ?? others[0];
  const [chosen, choose] = useState(first ? keyOf(first) : "");
  const from = others.find((each) => keyOf(each) === chosen) ?? first;
  const proposed = from ? movedBetween(from, section, (timeSec) => numberKeyAt(song, timeSec)) : 0;
  const [moved, move] = useState<number | null>(null);
  const semitones = moved ?? proposed;
  const repeated = useMemo(
    () =>
      grid && from
        ? repeatSection(song, grid, {
            from,
            to: section,
            semitones,
            keyAt: (timeSec) => keyAt(song, timeSec),
          })
        : null,
    [song, grid, from, section, semitones],
  );
  if (!from || !repeated) return null;
  const { copies, into } = repeated;
  const { changes, bass } = copies;
  const inked = [...changes, ...bass].filter(({ mark }) => mark === "ink").length;

  function onSubmit(event: FormEvent) {
    event.preventDefault();
    if (guessActs(desk).keepsFrom("changes", [into])) return;
    const ids = opened.acts.run((ctx) => copyStretches(ctx, into, copies));
    if (ids && from) say(`Written as ${sectionName(from)} has it. Ctrl Z takes it back.`);
  }

  return (
    <form className={styles.form} onSubmit={onSubmit}>
      <h3 className={beats.name}>The same as another</h3>
      <label className={controls.field}>
        As in
        <select
          className={controls.input}
          value={keyOf(from)}
          onChange={(event) => {
            choose(event.target.value);
            move(null);
          }}
        >
          {others.map((each) => (
            <option key={keyOf(each)} value={keyOf(each)}>
              {sectionName(each)}, {barsWords(each, grid).toLowerCase()}
            </option>
          ))}
        </select>
      </label>
      <label className={controls.field}>
        Moved
        <select
          className={controls.input}
          value={semitones}
          onChange={(event) => move(Number(event.target.value))}
        >
          {MOVES.map((each) => (
            <option key={each} value={each}>
              {movedWords(each) || "not at all"}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className={controls.button} disabled={changes.length + bass.length === 0}>
        Copy its changes and bass
      </button>
      <p className={controls.note}>
        {changes.length} {changes.length === 1 ? "change" : "changes"} and {bass.length} bass{" "}
        {bass.length === 1 ? "note" : "notes"}, {inked} of them in ink, the rest in pencil. What is inked here
        stays.
      </p>
    </form>
  );
}
