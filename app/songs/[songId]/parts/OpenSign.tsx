import { openCountWords } from "@/lib/client/questions/openQuestions";
import styles from "./openSign.module.css";

/** How many questions are open on a stretch of the strip: a small sign, and words for those who hear the page; nothing for none. */
export function OpenSign({ count }: { count: number }) {
  if (count === 0) return null;
  return (
    <>
      <span className="unseen">, {openCountWords(count)}</span>
      <span className={styles.sign} aria-hidden="true">
        ?{count > 1 ? count : ""}
      </span>
    </>
  );
}
