import Link from "next/link";
import { errorMessage } from "@/lib/contracts/errors";
import { MastheadFrame } from "./parts/MastheadFrame";
import page from "./parts/page.module.css";

export default function NotFound() {
  return (
    <>
      <MastheadFrame home="/" nav={null} side={<Link href="/sign-in">Sign in</Link>} />
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
