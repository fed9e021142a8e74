import type { ReactNode } from "react";
import { Mark } from "./Mark";
import styles from "./Masthead.module.css";
import { ThemeSwitch } from "./ThemeSwitch";

/**
 * How the head of a page is laid out. It stands alone, since the page for what is not found uses it, and Next sends that
 * page's scripts with every other.
 * @param home where the mark leads
 */
export function MastheadFrame({
  home,
  nav,
  side,
  before,
}: {
  home: string;
  nav?: ReactNode;
  side?: ReactNode;
  /** Before the switch of the theme. */
  before?: ReactNode;
}) {
  return (
    <header className={styles.masthead}>
      <Mark href={home} />
      {nav ? (
        <nav className={styles.nav} aria-label="Places">
          {nav}
        </nav>
      ) : null}
      <div className={styles.side}>
        {before}
        <ThemeSwitch />
        {side}
      </div>
    </header>
  );
}
