"use client";

import controls from "@/app/parts/controls.module.css";
import { clockText } from "@/lib/client/format/format";
import { glideSize } from "@/lib/client/song/noteWords";
import type { ShownNote } from "@/lib/document/read/SongSnapshot";
import type { GlideKind } from "@/lib/hearing/Hearing";
import { capital } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { noteActs } from "./noteActs";

const KINDS: Record<GlideKind, string> = {
  pedal: "by pedal or lever",
  bar: "by the bar",
  unsure: "not sure",
};

function isKind(value: string): value is GlideKind {
  return value in KINDS;
}

/** No pedal and few slides go further than this. */
const FURTHEST = 7;
const WAYS = Array.from({ length: 2 * FURTHEST + 1 }, (_, index) => FURTHEST - index).filter(
  (way) => way !== 0,
);

/** The moves of the selected note, one by one, to be put right. */
export function NoteGlides({ note }: { note: ShownNote }) {
  const acts = noteActs(useDesk());
  return (
    <>
      <ul aria-label="Its moves" hidden={note.glides.length === 0}>
        {note.glides.map(({ kind, toMidi, atSec }, index) => {
          const fromMidi = note.glides[index - 1]?.toMidi ?? note.midi;
          const way = Math.round(toMidi - fromMidi);
          const at = clockText(atSec, true);
          return (
            <li key={atSec} className={styles.move}>
              <label className={controls.field}>
                At {at}
                <select
                  className={controls.input}
                  value={way}
                  onChange={(chosen) =>
                    acts.editGlide(index, { toMidi: fromMidi + Number(chosen.target.value) })
                  }
                >
                  {(WAYS.includes(way) ? WAYS : [way, ...WAYS]).map((each) => (
                    <option key={each} value={each}>
                      {wayWords(each)}
                    </option>
                  ))}
                </select>
              </label>
              <select
                className={controls.input}
                aria-label={`What moved it at ${at}`}
                value={kind}
                onChange={({ target: { value } }) => {
                  if (isKind(value)) acts.editGlide(index, { kind: value });
                }}
              >
                {Object.entries(KINDS).map(([each, words]) => (
                  <option key={each} value={each}>
                    {words}
                  </option>
                ))}
              </select>
              <button type="button" className={controls.button} onClick={() => acts.dropGlide(index)}>
                It stays<span className="unseen"> where it was at {at}</span>
              </button>
            </li>
          );
        })}
      </ul>
      <div className={styles.acts}>
        <button type="button" className={controls.button} onClick={acts.addGlide}>
          It moves at the playhead
        </button>
      </div>
    </>
  );
}

function wayWords(semitones: number): string {
  return capital(`${semitones < 0 ? "down" : "up"} ${glideSize(semitones)}`);
}
