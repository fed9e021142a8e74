import { Mark } from "@/app/parts/Mark";
import { pages } from "@/lib/contracts/api";
import header from "./header.module.css";
import styles from "./skeleton.module.css";

/** Lanes as they will lie, by the share of the height that each takes. */
const LANES = [1, 3, 1, 2, 1, 3, 4] as const;

/** The desk before its song is there: everything in its place, nothing in it yet. */
export function SongSkeleton({ words }: { words: string }) {
  return (
    <div className={styles.desk} aria-busy="true">
      <header className={header.header}>
        <Mark href={pages.books()} />
        <p className={styles.words} role="status">
          {words}
        </p>
      </header>
      <div className={styles.strip} />
      <div className={styles.lanes} aria-hidden="true">
        {LANES.map((share, index) => (
          <div key={index} className={styles.lane} style={{ flexGrow: share }}>
            <span />
          </div>
        ))}
      </div>
      <div className={styles.foot} />
    </div>
  );
}
