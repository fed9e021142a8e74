"use client";

import controls from "@/app/parts/controls.module.css";
import { clockText } from "@/lib/client/format/format";
import { glideSize } from "@/lib/client/song/noteWords";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import type { GlideKind } from "@/lib/hearing/Hearing";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { noteActs } from "./noteActs";

const KINDS: readonly { kind: GlideKind; words: string }[] = [
  { kind: "pedal", words: "A pedal or lever" },
  { kind: "bar", words: "The bar" },
  { kind: "unsure", words: "Not sure" },
];

/** What moved the selected note, move by move, to be put right. */
export function NoteGlides({ note }: { note: ShownNote }) {
  const acts = noteActs(useDesk());
  return (
    <ul aria-label="What moved it">
      {note.glides.map(({ kind, toMidi, atSec }, index) => {
        const way = toMidi - (note.glides[index - 1]?.toMidi ?? note.midi);
        const words = `${way < 0 ? "Down" : "Up"} ${glideSize(way)} at ${clockText(atSec, true)}`;
        return (
          <li key={`${atSec} ${toMidi}`} className={styles.nameForm}>
            <label className={controls.field}>
              {words}
              <select
                className={controls.input}
                value={kind}
                onChange={(chosen) => {
                  const picked = KINDS.find((each) => each.kind === chosen.target.value);
                  if (picked) acts.setGlideKind(index, picked.kind);
                }}
              >
                {KINDS.map((each) => (
                  <option key={each.kind} value={each.kind}>
                    {each.words}
                  </option>
                ))}
              </select>
            </label>
            <button type="button" className={controls.button} onClick={() => acts.dropGlide(index)}>
              It stays<span className="unseen"> where it was at {clockText(atSec, true)}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
