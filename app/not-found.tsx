import Link from "next/link";
import { errorMessage } from "@/lib/contracts/errors";
import { MastheadFrame } from "./parts/MastheadFrame";
import page from "./parts/page.module.css";

/** The same for all: who asks is not looked up, since Next draws it along with every page. The way to the books is by signing in. */
export default function NotFound() {
  return (
    <>
      <MastheadFrame home="/" />
      <main className={page.page}>
        <div className={page.head}>
          <h1>Nothing here</h1>
          <p className={page.lead}>{errorMessage("not-found")}</p>
          <p>
            <Link href="/books">To your books</Link>
          </p>
        </div>
      </main>
    </>
  );
}
