import Link from "next/link";
import type { ReactNode } from "react";
import controls from "@/app/parts/controls.module.css";
import { openNotes, sizeWords } from "@/lib/client/copedents/copedentWords";
import { PRESET_GROUPS } from "@/lib/client/copedents/presetGroups";
import { pages } from "@/lib/contracts/api";
import type { CopedentRow, CopedentShelf } from "@/lib/contracts/copedents";
import type { Copedent } from "@/lib/instrument/Copedent";
import { readChart } from "@/lib/instrument/chart/readChart";
import styles from "./copedents.module.css";

/** All copedents at hand: one's own, others' in one's books, and the presets. */
export function Shelf({ shelf }: { shelf: CopedentShelf }) {
  const ofRow = (row: CopedentRow) => (
    <CopedentLine
      key={row.id}
      copedent={readChart(row.chart, row.id)}
      note={row.isOwn ? ownWords(row) : `${row.ownerName}'s, in ${titlesOf(row)}`}
    />
  );
  return (
    <>
      <section className={styles.group} aria-labelledby="own-title">
        <h2 id="own-title">Yours</h2>
        {shelf.own.length === 0 ? (
          <p className={controls.note}>
            None yet. Make one from the preset that comes nearest to your guitar, then change what differs.
          </p>
        ) : (
          <ul>{shelf.own.map(ofRow)}</ul>
        )}
      </section>
      {shelf.shared.length > 0 ? (
        <section className={styles.group} aria-labelledby="shared-title">
          <h2 id="shared-title">Shared in your books</h2>
          <ul>{shelf.shared.map(ofRow)}</ul>
        </section>
      ) : null}
      {PRESET_GROUPS.map(({ name, presets }) => (
        <section key={name} className={styles.group} aria-label={name}>
          <h2>{name}</h2>
          <ul>
            {presets.map((preset) => (
              <CopedentLine key={preset.id} copedent={preset} note={null} />
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

function CopedentLine({ copedent, note }: { copedent: Copedent; note: ReactNode }) {
  return (
    <li className={styles.line}>
      <div className={styles.lineName}>
        <Link href={pages.copedent(copedent.id)}>{copedent.name}</Link>
        <p className={controls.small}>
          {sizeWords(copedent)}
          {note ? `; ${note}` : null}
        </p>
      </div>
      <p className={styles.notes}>
        <span className="unseen">Open notes, string 1 first: </span>
        {openNotes(copedent)}
      </p>
    </li>
  );
}

function ownWords(row: CopedentRow): string {
  return row.sharedIn.length === 0 ? "seen by you alone" : `shared in ${titlesOf(row)}`;
}

function titlesOf({ sharedIn }: CopedentRow): string {
  return sharedIn.map(({ bookTitle }) => bookTitle).join(", ");
}
