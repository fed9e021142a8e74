import Link from "next/link";
import styles from "./Mark.module.css";

/** The name of the notebook; leads home. */
export function Mark({ href = "/" }: { href?: string }) {
  return (
    <Link className={styles.mark} href={href} aria-label="Liftbook, home">
      Lift<em>book</em>
    </Link>
  );
}
