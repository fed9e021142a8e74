"use client";

import { useRouter } from "next/navigation";
import { type SyntheticEvent, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { InviteRow, MadeInvite, NewInvite } from "@/lib/contracts/books";
import type { Role } from "@/lib/contracts/roles";
import styles from "./book.module.css";

/** Links that let others in: made, copied and taken back by the book's maker. */
export function Invites({ bookId, invites }: { bookId: string; invites: InviteRow[] }) {
  const router = useRouter();
  const isReady = useIsReady();
  const [made, setMade] = useState<MadeInvite | null>(null);
  const [copied, setCopied] = useState(false);
  const [fault, setFault] = useState<string | null>(null);

  async function attempt(act: () => Promise<void>) {
    setFault(null);
    try {
      await act();
      router.refresh();
    } catch (thrown) {
      setFault(wordsOf(thrown));
    }
  }

  function make(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const wanted: NewInvite = {
      role: String(form.get("role")) as Role,
      uses: form.get("uses") === "many" ? null : 1,
      days: Number(form.get("days")),
    };
    void attempt(async () => {
      setCopied(false);
      setMade(await request<MadeInvite>("POST", api.invites(bookId), wanted));
    });
  }

  function takeBack(inviteId: string) {
    void attempt(async () => {
      await request("DELETE", api.invite(bookId, inviteId));
      if (made?.id === inviteId) setMade(null);
    });
  }

  async function copy(url: string) {
    try {
      await navigator.clipboard.writeText(url);
      setCopied(true);
    } catch {
      setFault("This browser does not let the page copy. Select the link and copy it by hand.");
    }
  }

  return (
    <section id="invite" aria-labelledby="invite-title">
      <h2 id="invite-title">Invite</h2>
      <form className={styles.invite} onSubmit={make}>
        <label className={controls.field}>
          As
          <select className={controls.input} name="role" defaultValue="student">
            <option value="teacher">teacher: writes and inks</option>
            <option value="student">student: writes and inks</option>
            <option value="listener">listener: reads and plays</option>
          </select>
        </label>
        <div className={styles.pair}>
          <label className={controls.field}>
            For
            <select className={controls.input} name="uses" defaultValue="one">
              <option value="one">one person</option>
              <option value="many">any number</option>
            </select>
          </label>
          <label className={controls.field}>
            Days
            <input
              className={controls.input}
              name="days"
              type="number"
              min={1}
              max={90}
              defaultValue={7}
              required
            />
          </label>
        </div>
        <button type="submit" className={controls.button} disabled={!isReady}>
          Make a link
        </button>
      </form>
      {made ? (
        <div className={styles.sending}>
          <div className={styles.link}>
            <input
              className={controls.input}
              readOnly
              value={made.url}
              aria-label="Link of the invitation"
              onFocus={(event) => event.target.select()}
            />
            <button type="button" className={controls.act} onClick={() => copy(made.url)}>
              {copied ? "Copied" : "Copy"}
            </button>
          </div>
          <p className={controls.small}>Shown once: copy it now. Whoever has it can come in.</p>
        </div>
      ) : null}
      <FaultWords words={fault} />
      <ul className={styles.invites} aria-label="Links that work">
        {invites.map((invite) => (
          <li key={invite.id}>
            <span className={controls.small}>
              {invite.role}, {invite.usesLeft === null ? "any number" : `${invite.usesLeft} left`}, until{" "}
              {invite.expiresAt.slice(0, 10)}
            </span>
            <button type="button" className={controls.plain} onClick={() => takeBack(invite.id)}>
              Take back
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
