import type { Metadata } from "next";
import { pages } from "@/lib/contracts/api";
import { house } from "@/lib/server/house";
import { listCopedents } from "@/lib/server/services/listCopedents";
import { Masthead } from "../parts/Masthead";
import page from "../parts/page.module.css";
import { signedIn } from "../signedIn";
import { BringInChart } from "./parts/BringInChart";
import styles from "./parts/copedents.module.css";
import { NewCopedent } from "./parts/NewCopedent";
import { Shelf } from "./parts/Shelf";
import { UsualChoice } from "./parts/UsualChoice";

export const metadata: Metadata = { title: "Copedents" };

export default async function CopedentsPage() {
  const actor = await signedIn(pages.copedents());
  const shelf = await listCopedents(house().db, actor);
  return (
    <>
      <Masthead name={actor.name} />
      <main className={page.page}>
        <div className={page.head}>
          <h1>Copedents</h1>
          <p className={page.lead}>
            A copedent is the strings of an instrument and what each pedal and lever does to them. A part
            remembers the one it is played on; yours are seen by you alone until you share them in a book or
            put a part on them.
          </p>
        </div>
        <NewCopedent />
        <div className={styles.second}>
          <BringInChart />
          <UsualChoice own={shelf.own} usual={shelf.usual} />
        </div>
        <Shelf shelf={shelf} />
      </main>
    </>
  );
}
