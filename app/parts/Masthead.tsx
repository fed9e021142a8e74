import Link from "next/link";
import type { ReactNode } from "react";
import styles from "./Masthead.module.css";
import { MastheadFrame } from "./MastheadFrame";
import { PageSearch } from "./PageSearch";
import { SignOut } from "./SignOut";

/** The head of every page but the song's. */
export function Masthead({ name, children }: { name: string | null; children?: ReactNode }) {
  return name === null ? (
    <MastheadFrame home="/" nav={children} side={<Link href="/sign-in">Sign in</Link>} />
  ) : (
    <MastheadFrame
      home="/books"
      nav={
        <>
          <Link href="/books">Books</Link>
          <Link href="/copedents">Copedents</Link>
          {children}
        </>
      }
      before={<PageSearch />}
      side={
        <>
          <span className={styles.name}>{name}</span>
          <SignOut />
        </>
      }
    />
  );
}
