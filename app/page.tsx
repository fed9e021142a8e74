import Link from "next/link";
import { redirect } from "next/navigation";
import { pages } from "@/lib/contracts/api";
import styles from "./page.module.css";
import controls from "./parts/controls.module.css";
import { Drawing } from "./parts/Drawing";
import { Masthead } from "./parts/Masthead";
import { whoAsks } from "./signedIn";

export default async function HomePage() {
  if (await whoAsks()) redirect(pages.books());
  return (
    <>
      <Masthead name={null} />
      <main>
        <div className={styles.page}>
          <div className={styles.words}>
            <h1>Work out the part from the record, together</h1>
            <p className={styles.lead}>
              Liftbook listens to a record and writes what it hears in pencil: tuning, beats, home, changes.
              You settle it in ink, find where the part lies on the steel, and take the tab with you.
            </p>
            <div className={styles.acts}>
              <Link className={controls.act} href={pages.signUp()}>
                Sign up
              </Link>
              <Link className={controls.button} href={pages.signIn()}>
                Sign in
              </Link>
            </div>
          </div>
          <Drawing />
        </div>
        <ol className={styles.steps}>
          <li>
            <h2>Hear it</h2>
            <p>
              Loop a few bars, slow them to a quarter with the pitch kept, and see how far the record runs off
              A440.
            </p>
          </li>
          <li>
            <h2>Settle it</h2>
            <p>
              Pencil is a guess with its certainty beside it. Ink is yours, with your name, and the machine
              never touches it.
            </p>
          </li>
          <li>
            <h2>Place it</h2>
            <p>
              Name a note or a pair and see where it lies: strings, fret, pedals and levers, easiest first,
              and why.
            </p>
          </li>
        </ol>
      </main>
    </>
  );
}
