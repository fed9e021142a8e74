import Link from "next/link";
import type { ReactNode } from "react";
import { Mark } from "./Mark";
import styles from "./Masthead.module.css";
import { PageSearch } from "./PageSearch";
import { SignOut } from "./SignOut";
import { ThemeSwitch } from "./ThemeSwitch";

/** The head of every page but the song's. */
export function Masthead({ name, children }: { name: string | null; children?: ReactNode }) {
  return (
    <header className={styles.masthead}>
      <Mark href={name ? "/books" : "/"} />
      <nav className={styles.nav} aria-label="Places">
        {name ? (
          <>
            <Link href="/books">Books</Link>
            <Link href="/copedents">Copedents</Link>
          </>
        ) : null}
        {children}
      </nav>
      <div className={styles.side}>
        {name ? <PageSearch /> : null}
        <ThemeSwitch />
        {name ? (
          <>
            <span className={styles.name}>{name}</span>
            <SignOut />
          </>
        ) : (
          <Link href="/sign-in">Sign in</Link>
        )}
      </div>
    </header>
  );
}
