import { moveToText } from "@/lib/client/copedents/moveText";
import styles from "./neck.module.css";

export interface NeckRow {
  number: number;
  openNote: string;
  /** Null where the pedals and levers give no dependable pitch. */
  note: string | null;
  /** Semitones that pedals and levers move it. */
  moved: number;
}

/** Frets that bear a mark on most necks. */
const MARKED = [3, 5, 7, 9, 12, 15, 17, 19, 21, 24];

/** The strings from above, string 1 on top: open notes at the nut, what sounds at the bar. A map, not a ruler. */
export function NeckStrings({
  rows,
  fret,
  fretCount,
}: {
  rows: readonly NeckRow[];
  fret: number;
  fretCount: number;
}) {
  const at = (of: number) => `${(of / fretCount) * 100}%`;
  return (
    <div className={styles.neck}>
      <div className={styles.frets} aria-hidden="true">
        {MARKED.filter((mark) => mark <= fretCount).map((mark) => (
          <i key={mark} className={styles.mark} style={{ left: at(mark) }} />
        ))}
        <i className={styles.bar} style={{ left: at(fret) }} />
      </div>
      <ol className={styles.strings}>
        {rows.map(({ number, openNote, note, moved }) => (
          <li key={number}>
            <span className={styles.string}>{number}</span>
            <span className={styles.openNote}>{openNote}</span>
            <span className={styles.line} aria-hidden="true">
              <i className={moved === 0 ? styles.dot : styles.movedDot} style={{ left: at(fret) }} />
            </span>
            <span className={moved === 0 ? styles.sounds : styles.movedSounds}>
              <span className="unseen">sounds </span>
              {note ?? "not sure"}
              <small>{moved === 0 ? "" : ` ${moveToText(moved)}`}</small>
            </span>
          </li>
        ))}
      </ol>
      <div className={styles.numbers} aria-hidden="true">
        {[0, ...MARKED.filter((mark) => mark <= fretCount)].map((mark) => (
          <span key={mark} style={{ left: at(mark) }}>
            {mark}
          </span>
        ))}
      </div>
    </div>
  );
}
