import type { Metadata } from "next";
import Link from "next/link";
import { Masthead } from "@/app/parts/Masthead";
import page from "@/app/parts/page.module.css";
import { signedIn } from "@/app/signedIn";
import { pages } from "@/lib/contracts/api";
import type { InviteOffer } from "@/lib/contracts/books";
import { errorMessage } from "@/lib/contracts/errors";
import type { Role } from "@/lib/contracts/roles";
import { isAppError } from "@/lib/server/AppError";
import { house } from "@/lib/server/house";
import { readInvite } from "@/lib/server/services/readInvite";
import { AcceptInvite } from "./parts/AcceptInvite";

export const metadata: Metadata = { title: "Invitation" };

const ROLE_WORDS: Readonly<Record<Role, string>> = {
  teacher: "As a teacher you write and ink.",
  student: "As a student you write and ink.",
  listener: "As a listener you read and play; you do not write.",
};

export default async function InvitePage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const actor = await signedIn(pages.invite(token));
  const offer = await openOffer();
  return (
    <>
      <Masthead name={actor.name} />
      <main className={page.page}>
        {offer ? (
          <div className={page.head}>
            <h1>{offer.bookTitle}</h1>
            <p className={page.lead}>
              {offer.madeByName} invites you into this book. {ROLE_WORDS[offer.role]}
            </p>
            <div>
              <AcceptInvite token={token} />
            </div>
          </div>
        ) : (
          <div className={page.head}>
            <h1>No invitation here</h1>
            <p className={page.lead}>{errorMessage("invite-over")}</p>
            <p>
              <Link href={pages.books()}>To your books</Link>
            </p>
          </div>
        )}
      </main>
    </>
  );

  async function openOffer(): Promise<InviteOffer | null> {
    try {
      return await readInvite(house().db, actor, token);
    } catch (error) {
      if (isAppError(error) && error.code === "invite-over") return null;
      throw error;
    }
  }
}
