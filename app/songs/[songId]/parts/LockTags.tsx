import controls from "@/app/parts/controls.module.css";
import { lockTags } from "@/lib/client/places/HeldLocks";
import { benchLocks, useBenchLocks } from "./benchLocks";
import { useDesk } from "./DeskContext";
import styles from "./locks.module.css";

/** What is locked, each as a tag that lets it off, and the way to lock more; nothing where nothing is locked or placed. */
export function LockTags({ isResting = false }: { isResting?: boolean }) {
  const { copedent } = useDesk();
  const { held, isOpen } = useBenchLocks();
  const tags = lockTags(held, copedent);
  if (isResting && tags.length === 0) return null;
  return (
    <div className={styles.row}>
      <button
        type="button"
        className={`${controls.button} ${styles.open}`}
        aria-expanded={isOpen}
        onClick={() => benchLocks.open(!isOpen)}
        title="Lock notes to strings, frets, pedals, the strings to play (%)"
      >
        Locks
      </button>
      {tags.map(({ words, without }) => (
        <button
          key={words}
          type="button"
          className={styles.tag}
          aria-label={`Let off the lock: ${words}`}
          title="Let it off"
          onClick={() => benchLocks.hold(without)}
        >
          {words} <span aria-hidden="true">×</span>
        </button>
      ))}
    </div>
  );
}
